"""Reference cell K (scenarios/cell-k.json) as a plain model on simpy, to measure against: one process a person, stores for the racks.

Prints one line of JSON: shifts, CPU seconds they took (start-up left out), mean and standard error of good units a shift.
With `accounts` it keeps what a run of ours keeps of a shift: the lines through the day, waits, minutes of every person and every piece
of gear by what they did, lead times, rework by cause, good units by the hour, labour cost. With `count` it counts good units only.

    python3 cell_k_simpy.py SHIFTS CLAMP_SETS SEED [accounts|count]
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
STEPS = ("fit", "glue", "cure", "unclamp", "sand", "check")
PEOPLE = ("fitter", "gluer", "sander", "checker")
BIN = 15.0
BINS = 34
RATE = 28.0


class Accounts:
    """Everything told of one shift, added up as it happens."""

    def __init__(self, env, clamp_sets):
        self.env = env
        self.length = dict.fromkeys(STEPS, 0)
        self.since = dict.fromkeys(STEPS, 0.0)
        self.most = dict.fromkeys(STEPS, 0)
        self.bins = {step: [0.0] * (BINS + 1) for step in STEPS}
        self.waited = dict.fromkeys(STEPS, 0.0)
        self.starts = dict.fromkeys(STEPS, 0)
        self.joined = {step: {} for step in STEPS}
        self.people = {person: {} for person in PEOPLE}
        self.doing = {person: ("not in", 0.0) for person in PEOPLE}
        self.gear = {}
        self.gear_doing = {gear: ("free", 0.0) for gear in [*(f"{step} bench" for step in STEPS if step != "cure"), *range(clamp_sets)]}
        self.clamp_of = {}
        self.begun = {}
        self.rework = {}
        self.reworked = set()
        self.by_hour = [0] * 10
        self.lead = self.flow = 0.0
        self.first_pass = 0

    def line(self, step, more):
        now = self.env.now
        length = self.length[step]
        if length:
            since, bins = self.since[step], self.bins[step]
            first, last = min(int(since // BIN), BINS), min(int(now // BIN), BINS)
            if first == last:
                bins[first] += length * (now - since)
            else:
                bins[first] += length * ((first + 1) * BIN - since)
                for between in range(first + 1, last):
                    bins[between] += length * BIN
                bins[last] += length * (now - last * BIN)
        self.since[step] = now
        self.length[step] = length + more
        if length + more > self.most[step]:
            self.most[step] = length + more

    def join(self, step, unit):
        self.line(step, 1)
        self.joined[step][unit] = self.env.now

    def start(self, step, person, unit):
        now = self.env.now
        self.line(step, -1)
        self.waited[step] += now - self.joined[step].pop(unit)
        self.starts[step] += 1
        self.begun.setdefault(unit, now)
        self.person(person, step)
        self.bench(f"{step} bench", step)

    def person(self, person, doing):
        now = self.env.now
        before, since = self.doing[person]
        if before == doing:
            return
        minutes = self.people[person]
        minutes[before] = minutes.get(before, 0.0) + now - since
        self.doing[person] = (doing, now)

    def bench(self, gear, doing):
        now = self.env.now
        before, since = self.gear_doing[gear]
        self.gear[gear, before] = self.gear.get((gear, before), 0.0) + now - since
        self.gear_doing[gear] = (doing, now)

    def clamp(self, unit, doing):
        if unit not in self.clamp_of:
            self.clamp_of[unit] = next(gear for gear, (state, _) in self.gear_doing.items() if state == "free" and isinstance(gear, int))
        self.bench(self.clamp_of[unit], doing)
        if doing == "free":
            del self.clamp_of[unit]

    def back(self, cause, unit):
        self.rework[cause] = self.rework.get(cause, 0) + 1
        self.reworked.add(unit)

    def out(self, unit):
        now = self.env.now
        self.lead += now
        self.flow += now - self.begun[unit]
        self.first_pass += unit not in self.reworked
        self.by_hour[min(int(now // 60), 9)] += 1

    def close(self):
        for step in STEPS:
            self.line(step, 0)
        for person in PEOPLE:
            self.person(person, "gone")
        for gear in self.gear_doing:
            self.bench(gear, "free")
        paid = sum(sum(minutes.values()) for minutes in self.people.values())
        self.cost = paid / 60 * RATE


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
    def __init__(self, clamp_sets, draw, accounts):
        self.env = env = simpy.Environment()
        self.draw = draw
        self.told = Accounts(env, clamp_sets) if accounts else None
        self.to_fit = simpy.Store(env)
        self.to_glue = simpy.Store(env, capacity=4)
        self.cured = simpy.Store(env)
        self.to_sand = simpy.Store(env, capacity=6)
        self.to_check = simpy.Store(env, capacity=4)
        self.clamps = simpy.Container(env, capacity=clamp_sets, init=clamp_sets)
        self.good = 0
        self.sanded = set()
        for unit in range(UNITS):
            self.join(self.to_fit, "fit", unit)
        for person in (self.fitter, self.gluer, self.sander, self.checker):
            env.process(person())

    def run(self):
        self.env.run()
        if self.told:
            self.told.close()
        return self

    def join(self, rack, step, unit):
        """Into a rack, at once or once there is room: what waits on its bench until then joins the line when it leaves it."""
        put = rack.put(unit)
        told = self.told
        if told:
            if put.triggered:
                told.join(step, unit)
            else:
                put.callbacks.append(lambda _: told.join(step, unit))
        return put

    def leave(self, rack, step, bench, unit):
        """The same from a bench, which is free then."""
        put = self.join(rack, step, unit)
        told = self.told
        if told:
            if put.triggered:
                told.bench(bench, "free")
            else:
                told.bench(bench, f"before {step}")
                put.callbacks.append(lambda _: told.bench(bench, "free"))
        return put

    def fitter(self):
        """Unclamps first. A piece stays on its bench until there is room for it: the bench is free once its put is done."""
        env, draw, told = self.env, self.draw, self.told
        cured, kit = self.cured.get(), self.to_fit.get()
        unclamp_bench = fit_bench = env.timeout(0)
        while env.now < END:
            pause = rest(env.now)
            if pause:
                if told:
                    told.person("fitter", "break")
                yield env.timeout(pause)
            elif cured.triggered and unclamp_bench.triggered:
                unit = cured.value
                if told:
                    told.start("unclamp", "fitter", unit)
                    told.clamp(unit, "unclamp")
                yield env.timeout(finish(env.now, draw.lognormvariate(*UNCLAMP)) - env.now)
                self.clamps.put(1)
                if told:
                    told.clamp(unit, "free")
                if draw.random() < 0.03:
                    if told:
                        told.back("open joint", unit)
                    self.leave(self.to_fit, "fit", "unclamp bench", unit)
                else:
                    unclamp_bench = self.leave(self.to_sand, "sand", "unclamp bench", unit)
                cured = self.cured.get()
            elif kit.triggered and fit_bench.triggered:
                if told:
                    told.start("fit", "fitter", kit.value)
                yield env.timeout(finish(env.now, draw.lognormvariate(*FIT)) - env.now)
                fit_bench = self.leave(self.to_glue, "glue", "fit bench", kit.value)
                kit = self.to_fit.get()
            else:
                if told:
                    told.person("fitter", "nothing to unclamp" if not cured.triggered else "nowhere to put it")
                yield env.any_of([event for event in (cured, kit, unclamp_bench, fit_bench) if not event.triggered])
        if told:
            told.person("fitter", "gone")

    def gluer(self):
        """Glue does not wait: a piece is begun only if it fits before the next stop; a break that it runs into is taken after it."""
        env, draw, told = self.env, self.draw, self.told
        taken = 0
        while env.now < END:
            pause = rest(env.now)
            if taken < len(BREAKS) and env.now > BREAKS[taken][0]:
                pause = BREAKS[taken][1]
            if pause:
                if told:
                    told.person("gluer", "break")
                taken += 1
                yield env.timeout(pause)
                continue
            stop = next_stop(env.now)
            latest = stop - GLUE_PLANNED
            clamp = self.clamps.get(1)
            if not clamp.triggered and env.now <= latest:
                if told:
                    told.person("gluer", "no clamp set")
                yield clamp | env.timeout(latest - env.now)
            unit = None
            if clamp.triggered and env.now <= latest:
                unit = self.to_glue.get()
                if not unit.triggered:
                    if told:
                        told.person("gluer", "nothing to glue")
                    yield unit | env.timeout(latest - env.now)
            if unit is None or not unit.triggered:
                for request in (clamp, unit):
                    if request is not None and not request.triggered:
                        request.cancel()
                if clamp.triggered:
                    self.clamps.put(1)
                if told:
                    told.person("gluer", "does not fit")
                yield env.timeout(stop - env.now)
                if stop < END:
                    if told:
                        told.person("gluer", "break")
                    taken += 1
                    yield env.timeout(rest(env.now))
                continue
            if told:
                told.start("glue", "gluer", unit.value)
                told.clamp(unit.value, "glue")
            yield env.timeout(draw.lognormvariate(*GLUE))
            if told:
                told.bench("glue bench", "free")
                told.clamp(unit.value, "cure")
            env.process(self.cure(unit.value))
        if told:
            told.person("gluer", "gone")

    def cure(self, unit):
        yield self.env.timeout(CURE)
        if self.told:
            self.told.clamp(unit, "before unclamp")
        self.join(self.cured, "unclamp", unit)

    def next_unit(self, rack, person):
        """Waits for a unit in the rack until the next stop, then rests; None where none came."""
        env, told = self.env, self.told
        pause = rest(env.now)
        if pause:
            if told:
                told.person(person, "break")
            yield env.timeout(pause)
        if env.now >= END:
            return None
        unit = rack.get()
        if not unit.triggered:
            if told:
                told.person(person, "nothing to work on")
            yield unit | env.timeout(next_stop(env.now) - env.now)
            if not unit.triggered:
                unit.cancel()
                return None
        return unit.value

    def sander(self):
        env, draw, told = self.env, self.draw, self.told
        while env.now < END:
            unit = yield from self.next_unit(self.to_sand, "sander")
            if unit is None:
                continue
            again = unit in self.sanded
            self.sanded.add(unit)
            if told:
                told.start("sand", "sander", unit)
            yield env.timeout(finish(env.now, draw.lognormvariate(*(SAND_AGAIN if again else SAND))) - env.now)
            put = self.leave(self.to_check, "check", "sand bench", unit)
            if told and not put.triggered:
                told.person("sander", "nowhere to put it")
            yield put
        if told:
            told.person("sander", "gone")

    def checker(self):
        env, draw, told = self.env, self.draw, self.told
        while env.now < END:
            unit = yield from self.next_unit(self.to_check, "checker")
            if unit is None:
                continue
            if told:
                told.start("check", "checker", unit)
            yield env.timeout(finish(env.now, draw.lognormvariate(*CHECK)) - env.now)
            luck = draw.random()
            if luck < 0.12:
                if told:
                    told.back("scratch", unit)
                put = self.leave(self.to_sand, "sand", "check bench", unit)
                if told and not put.triggered:
                    told.person("checker", "nowhere to put it")
                yield put
                continue
            if told:
                told.bench("check bench", "free")
            if luck >= 0.125:
                self.good += 1
                if told:
                    told.out(unit)
        if told:
            told.person("checker", "gone")


def main():
    shifts, clamp_sets, seed = (int(word) for word in sys.argv[1:4])
    accounts = sys.argv[4:] != ["count"]
    draw = random.Random(seed)
    begun = time.process_time()
    counts, leads, lines = [], [], []
    for _ in range(shifts):
        cell = Cell(clamp_sets, draw, accounts).run()
        counts.append(cell.good)
        if accounts:
            leads.append(cell.told.lead / max(1, cell.good))
            lines.append(sum(cell.told.bins["sand"]) / cell.env.now)
    seconds = time.process_time() - begun
    mean = sum(counts) / shifts
    variance = sum((count - mean) ** 2 for count in counts) / (shifts - 1)
    answer = {"shifts": shifts, "seconds": seconds, "mean": mean, "se": math.sqrt(variance / shifts)}
    if accounts:
        answer |= {"lead": sum(leads) / shifts, "sandLine": sum(lines) / shifts}
    print(json.dumps(answer))


if __name__ == "__main__":
    main()
