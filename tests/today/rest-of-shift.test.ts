import { describe, expect, it } from 'vitest';
import { remainder } from '../../src/today/remainder.ts';
import { stateAt, type NowState } from '../../src/today/state.ts';
import { checkScenario } from '../../src/scenario/check.ts';
import type { Scenario } from '../../src/scenario/schema.ts';
import { doneAfter, runOf, scenarioOf, withoutChance } from './support.ts';

/**
 * The rest of the shift from a count read off its own record, run again, and what the record itself says came
 * after.
 */
function both(scenario: Scenario, minute: number): { again: string[]; record: string[]; now: NowState } {
  const record = runOf(scenario);
  const now = stateAt(scenario, record, minute);
  const rest = remainder(scenario, now);
  const reading = checkScenario(rest);
  expect(reading.kind === 'wrong' ? reading.faults.map((fault) => fault.text) : []).toEqual([]);
  return { again: doneAfter(runOf(rest), 0), record: doneAfter(record, minute), now };
}

const MINUTES = [15, 61, 100, 155, 240, 300, 333, 400, 450, 480];

describe('the rest of a shift with fixed times, counted off its record at a minute and run again', () => {
  it.each(['chair-works', 'cell-k', 'one-step'])(
    'does what the whole shift did from there on, to the instant, in %s',
    (name) => {
      const scenario = withoutChance(scenarioOf(name));
      for (const minute of MINUTES) {
        const { again, record } = both(scenario, minute);
        expect(record.length, `${name} at ${minute}`).toBeGreaterThan(4);
        expect(again, `${name} at ${minute}`).toEqual(record);
      }
    },
  );

  it('does so in door-works, with holds, due times and pieces of two people', () => {
    const drawn = withoutChance(scenarioOf('door-works'));
    // A count does not say since when each piece waits in its line, so who takes the oldest may begin with
    // another; what two had in hand may be taken up again a moment later, by others. Everybody goes by the
    // order of steps here, and minutes with a piece of two are left out.
    const scenario = {
      ...drawn,
      people: Object.fromEntries(
        Object.entries(drawn.people).map(([id, person]) => [id, { ...person, rule: 'in order' as const }]),
      ),
    };
    const compared = MINUTES.filter(
      (minute) =>
        !stateAt(scenario, runOf(scenario), minute).inside.some((piece) => piece.state === 'put down'),
    );
    expect(compared.length).toBeGreaterThan(5);
    for (const minute of compared) {
      const { again, record } = both(scenario, minute);
      expect(again, `door-works at ${minute}`).toEqual(record);
    }
  });

  it('does something else once one counted piece is left out, so the comparison can fail', () => {
    const scenario = withoutChance(scenarioOf('cell-k'));
    const record = runOf(scenario);
    const now = stateAt(scenario, record, 100);
    const short = { ...now, inside: now.inside.filter((piece) => piece.state !== 'curing') };
    expect(now.inside.length).toBeGreaterThan(short.inside.length);
    expect(doneAfter(runOf(remainder(scenario, short)), 0)).not.toEqual(doneAfter(record, 100));
  });

  it('counts the good ones by the hour as the record has them', () => {
    const record = runOf(scenarioOf('cell-k'));
    const now = stateAt(scenarioOf('cell-k'), record, 290);
    const good = record.filter((one) => one.event === 'good').map((one) => one.time / 60_000);
    expect(now.goodByHour).toEqual(
      [0, 1, 2, 3, 4].map(
        (hour) => good.filter((at) => at >= hour * 60 && at < Math.min(290.0001, hour * 60 + 60)).length,
      ),
    );
    expect(now.at).toBe('10:50');
  });
});

describe('what the rest of a shift keeps and leaves out', () => {
  const base: Scenario = {
    format: 1,
    name: 'Bench',
    steps: {
      glue: { time: 10, takes: [{ gear: 'clamp', until: 'sand' }], lastStart: '08:00' },
      sand: { time: 10 },
    },
    gear: {
      clamp: {
        count: 3,
        out: [
          { from: '07:00', minutes: 30 },
          { from: '12:00', minutes: 30 },
        ],
      },
    },
    people: {
      ada: {
        covers: ['glue', 'sand'],
        changes: [
          { from: '08:00', covers: ['sand'] },
          { from: '13:00', covers: ['glue'] },
        ],
      },
      ben: { covers: ['sand'], to: '10:00', hoursThisWeek: 20 },
    },
    shift: {
      start: '06:00',
      end: '14:30',
      target: 20,
      breaks: [
        { from: '07:00', minutes: 10 },
        { from: '10:30', minutes: 30 },
        { from: '13:00', minutes: 10 },
      ],
      overtime: { until: 'target', cap: 30 },
    },
    intake: { kind: 'beat', every: 60, units: 12 },
  };
  const now: NowState = {
    at: '10:40',
    goodByHour: [2, 3, 3, 4, 2],
    inside: [],
    holds: [
      { before: 'sand', until: '09:00' },
      { before: 'sand', until: '12:00' },
    ],
    out: [],
    broken: [{ gear: 'clamp', items: 2, minutes: 45 }],
  };
  const rest = remainder(base, now);

  it('has the rest of a break under way, those to come, and none that is over', () => {
    expect(rest.shift!.breaks).toEqual([
      { from: '10:40', minutes: 20 },
      { from: '13:00', minutes: 10 },
    ]);
  });
  it('asks for what is missing of the target, and for no overtime once it is made', () => {
    expect(rest.shift).toMatchObject({
      start: '10:40',
      end: '14:30',
      target: 6,
      overtime: { until: 'target', cap: 30 },
    });
    expect(remainder(base, { ...now, good: 25 }).shift).toMatchObject({
      target: 0,
      overtime: { until: 'none' },
    });
  });
  it('knows where everybody stands now, who has gone, and the hours they have worked', () => {
    expect(rest.people['ada']).toMatchObject({
      covers: ['sand'],
      changes: [{ from: '13:00', covers: ['glue'] }],
    });
    expect(rest.people['ada']!.hoursThisWeek).toBeCloseTo(4 + 2 / 3, 9);
    expect(rest.people['ben']!.attendance).toEqual({ percent: 0 });
    expect(remainder(base, { ...now, at: '10:20' }).people['ben']).toMatchObject({
      to: '10:30',
      overtime: false,
    });
    expect(remainder(base, { ...now, out: ['ada'] }).people['ada']!.attendance).toEqual({ percent: 0 });
  });
  it('has the arrivals, holds and times out of order that are still to come, and what is broken now', () => {
    expect(rest.intake).toEqual({ kind: 'beat', every: 60, units: 7, late: 20 });
    // The last glue-up was to begin at 08:00: to the end nothing more is glued.
    expect(rest.holds).toEqual([
      { before: 'sand', until: '12:00' },
      { before: 'glue', until: '14:59', product: 'piece' },
    ]);
    expect(rest.gear!['clamp']!.out).toEqual([
      { from: '10:40', minutes: 45, items: 2 },
      { from: '12:00', minutes: 30 },
    ]);
  });
  it('is refused outside the shift', () => {
    expect(() => remainder(base, { ...now, at: '23:00' })).toThrow(/not within the shift/);
  });
});
