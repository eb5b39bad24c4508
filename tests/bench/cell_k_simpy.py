"""Reference cell K (scenarios/cell-k.json) as a plain model on simpy, to measure against: one process a person, stores for the racks.

Prints one line of JSON: shifts, CPU seconds they took (start-up left out), mean and standard error of good units a shift.
Counts good units and nothing else.

    python3 cell_k_simpy.py SHIFTS CLAMP_SETS SEED
"""
import json
import math
import random
import sys
import time

import simpy

END = 510.0
BREAKS = [(180.0, 10.0), (330.0, 30.0), (450.0, 10.0)]
UNITS = 60


def lognormal(mean, cv):
    variance = math.log(1 + cv * cv)
    return math.log(mean) - variance / 2, math.sqrt(variance)


FIT = lognormal(13, 0.25)
GLUE = lognormal(8, 0.15)
GLUE_PLANNED = 8.0
UNCLAMP = lognormal(5, 0.2)
SAND = lognormal(16, 0.3)
SAND_AGAIN = lognormal(8, 0.3)
CHECK = lognormal(7, 0.25)
CURE = 30.0


def finish(now, minutes):
    """When a piece that is put down for breaks is done."""
    end = now + minutes
    for start, length in BREAKS:
        if now <= start < end:
            end += length
    return end


def rest(now):
    """Minutes left of the break that is on now; 0 where none is."""
    for start, length in BREAKS:
        if start <= now < start + length:
            return start + length - now
    return 0.0


def next_stop(now):
    return next((start for start, _ in BREAKS if start > now), END)


class Cell:
    def __init__(self, clamp_sets, draw):
        self.env = env = simpy.Environment()
        self.draw = draw
        self.to_fit = simpy.Store(env)
        self.to_glue = simpy.Store(env, capacity=4)
        self.cured = simpy.Store(env)
        self.to_sand = simpy.Store(env, capacity=6)
        self.to_check = simpy.Store(env, capacity=4)
        self.clamps = simpy.Container(env, capacity=clamp_sets, init=clamp_sets)
        self.good = 0
        self.sanded = set()
        for unit in range(UNITS):
            self.to_fit.put(unit)
        for person in (self.fitter, self.gluer, self.sander, self.checker):
            env.process(person())

    def run(self):
        self.env.run()
        return self.good

    def fitter(self):
        """Unclamps first. A piece stays on its bench until there is room for it: the bench is free once its put is done."""
        env, draw = self.env, self.draw
        cured, kit = self.cured.get(), self.to_fit.get()
        unclamp_bench = fit_bench = env.timeout(0)
        while env.now < END:
            pause = rest(env.now)
            if pause:
                yield env.timeout(pause)
            elif cured.triggered and unclamp_bench.triggered:
                unit = cured.value
                yield env.timeout(finish(env.now, draw.lognormvariate(*UNCLAMP)) - env.now)
                self.clamps.put(1)
                if draw.random() < 0.03:
                    self.to_fit.put(unit)
                else:
                    unclamp_bench = self.to_sand.put(unit)
                cured = self.cured.get()
            elif kit.triggered and fit_bench.triggered:
                yield env.timeout(finish(env.now, draw.lognormvariate(*FIT)) - env.now)
                fit_bench = self.to_glue.put(kit.value)
                kit = self.to_fit.get()
            else:
                yield env.any_of([event for event in (cured, kit, unclamp_bench, fit_bench) if not event.triggered])

    def gluer(self):
        """Glue does not wait: a piece is begun only if it fits before the next stop; a break that it runs into is taken after it."""
        env, draw = self.env, self.draw
        taken = 0
        while env.now < END:
            pause = rest(env.now)
            if taken < len(BREAKS) and env.now > BREAKS[taken][0]:
                pause = BREAKS[taken][1]
            if pause:
                taken += 1
                yield env.timeout(pause)
                continue
            stop = next_stop(env.now)
            latest = stop - GLUE_PLANNED
            clamp = self.clamps.get(1)
            if not clamp.triggered and env.now <= latest:
                yield clamp | env.timeout(latest - env.now)
            unit = None
            if clamp.triggered and env.now <= latest:
                unit = self.to_glue.get()
                if not unit.triggered:
                    yield unit | env.timeout(latest - env.now)
            if unit is None or not unit.triggered:
                for request in (clamp, unit):
                    if request is not None and not request.triggered:
                        request.cancel()
                if clamp.triggered:
                    self.clamps.put(1)
                yield env.timeout(stop - env.now)
                if stop < END:
                    taken += 1
                    yield env.timeout(rest(env.now))
                continue
            yield env.timeout(draw.lognormvariate(*GLUE))
            env.process(self.cure(unit.value))

    def cure(self, unit):
        yield self.env.timeout(CURE)
        self.cured.put(unit)

    def next_unit(self, rack):
        """Waits for a unit in the rack until the next stop, then rests; None where none came."""
        env = self.env
        pause = rest(env.now)
        if pause:
            yield env.timeout(pause)
        if env.now >= END:
            return None
        unit = rack.get()
        if not unit.triggered:
            yield unit | env.timeout(next_stop(env.now) - env.now)
            if not unit.triggered:
                unit.cancel()
                return None
        return unit.value

    def sander(self):
        env, draw = self.env, self.draw
        while env.now < END:
            unit = yield from self.next_unit(self.to_sand)
            if unit is None:
                continue
            again = unit in self.sanded
            self.sanded.add(unit)
            yield env.timeout(finish(env.now, draw.lognormvariate(*(SAND_AGAIN if again else SAND))) - env.now)
            yield self.to_check.put(unit)

    def checker(self):
        env, draw = self.env, self.draw
        while env.now < END:
            unit = yield from self.next_unit(self.to_check)
            if unit is None:
                continue
            yield env.timeout(finish(env.now, draw.lognormvariate(*CHECK)) - env.now)
            luck = draw.random()
            if luck < 0.12:
                yield self.to_sand.put(unit)
            elif luck >= 0.125:
                self.good += 1


def main():
    shifts, clamp_sets, seed = (int(word) for word in sys.argv[1:4])
    draw = random.Random(seed)
    begun = time.process_time()
    counts = [Cell(clamp_sets, draw).run() for _ in range(shifts)]
    seconds = time.process_time() - begun
    mean = sum(counts) / shifts
    variance = sum((count - mean) ** 2 for count in counts) / (shifts - 1)
    print(json.dumps({"shifts": shifts, "seconds": seconds, "mean": mean, "se": math.sqrt(variance / shifts)}))


if __name__ == "__main__":
    main()
