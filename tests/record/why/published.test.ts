/**
 * Minutes by reason against exact results. Little's law by state (Little, Operations Research 9, 1961, from
 * memory): the figures of the finite source were recomputed from its birth-death chain. Blocked and starved
 * shares of benches in a row: Hunt, Operations Research 4, 1956, from memory; recomputed from the chain.
 */
import { describe, expect, test } from 'vitest';
import type { CauseKind } from '../../../src/record/why/causes.ts';
import { ReasonsRun, type ShiftReasons } from '../../../src/record/why/reasons.ts';
import { shiftsOf } from '../../../src/scenario/options.ts';
import { readScenario } from '../../../src/scenario/check.ts';
import { steady } from '../../theory/cases/cell.ts';

/** So many standard errors a mean may be off. */
const FAR = 3.3;
const RUNS = 60;

/** Shares of the second of two shifts, by run. */
function played(cell: Record<string, unknown>, share: (shift: ShiftReasons) => number[]): number[][] {
  const reading = readScenario(JSON.stringify(steady(cell)({ hours: 1, measured: 1 })));
  if (reading.kind === 'wrong') throw new Error(reading.faults.map(({ text }) => text).join('\n'));
  const run = new ReasonsRun(shiftsOf(reading.scenario));
  return Array.from({ length: RUNS }, (_, replication) => share(run.reasons(replication).at(-1)!));
}

function expectHolds(runs: number[][], truth: number[]): void {
  truth.forEach((value, i) => {
    const values = runs.map((run) => run[i]!);
    const mean = values.reduce((sum, one) => sum + one, 0) / RUNS;
    const error = Math.sqrt(values.reduce((sum, one) => sum + (one - mean) ** 2, 0) / (RUNS - 1) / RUNS);
    expect(Math.abs(mean - value), `${mean} beside ${value}`).toBeLessThan(FAR * error);
  });
}

type Line = ShiftReasons['idle'][number];
const minutesOf = (lines: Line[], ...kinds: CauseKind[]): number =>
  lines
    .flat()
    .filter(({ chain }) => kinds.includes(chain[0]!.kind))
    .reduce((sum, { from, to }) => sum + to - from, 0);

/** A minute of the source is a hundredth of one in the file. */
const SCALE = 0.01;

describe('clamp sets that cure for 30 minutes and are handled by hand: where a set’s minutes go', () => {
  const cases: [
    hands: number,
    people: number,
    sets: number,
    curing: number,
    handled: number,
    waiting: number,
  ][] = [[8, 1, 3, 2.14774, 0.572731, 0.279529]];
  test.each(cases)('handling %s, %s people, %s sets', (hands, people, sets, curing, handled, waiting) => {
    const runs = played(
      {
        name: 'Finite source',
        steps: {
          load: {
            time: { curve: 'exponential', mean: hands * SCALE },
            benches: 0,
            takes: [{ gear: 'set', until: 'off' }],
          },
          cure: { kind: 'wait', time: 30 * SCALE },
          off: { time: 0, benches: 0 },
        },
        gear: { set: { count: sets } },
        people: {
          ...Object.fromEntries(
            Array.from({ length: people }, (_, i) => [`gluer${i}`, { covers: ['load'] }]),
          ),
          helper: { covers: ['off'] },
        },
        intake: { kind: 'constant', inside: sets + people + 3 },
      },
      ({ items, stood, ends }) => {
        const free = minutesOf(stood[0]!, 'busy');
        const all = items[0]!.flat().reduce((sum, { from, to }) => sum + to - from, 0);
        const loading = items[0]!
          .flat()
          .filter(({ state }) => state === 2)
          .reduce((sum, { from, to }) => sum + to - from, 0);
        return [(all - free - loading) / ends, loading / ends, free / ends];
      },
    );
    expectHolds(runs, [curing, handled, waiting]);
  });
});

describe('two exponential benches, never starved in front', () => {
  const cases: [first: number, second: number, rack: number, blocked: number, starved: number][] = [
    [1, 1.25, 0, 0.26229508, 0.40983607],
    [1, 2, 1, 0.06666667, 0.53333333],
    [1.25, 1, 1, 0.33875339, 0.17344173],
  ];
  test.each(cases)('rates %s and %s, a rack of %s', (first, second, rack, blocked, starved) => {
    const runs = played(
      {
        name: 'Two benches',
        steps: {
          one: { time: { curve: 'exponential', mean: (8 * SCALE) / first } },
          two: { time: { curve: 'exponential', mean: (8 * SCALE) / second }, rack },
        },
        people: { ana: { covers: ['one'] }, ben: { covers: ['two'] } },
        intake: { kind: 'constant', inside: rack + 4 },
      },
      ({ idle, ends }) => [
        minutesOf([idle[0]!], 'nowhere to put it') / ends,
        minutesOf([idle[1]!], 'no piece') / ends,
      ],
    );
    expectHolds(runs, [blocked, starved]);
  });
});
