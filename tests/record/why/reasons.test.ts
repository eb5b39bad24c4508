/** Reasons of shifts that are solved by hand; and over many shifts: none unknown, every minute once. */
import { describe, expect, test } from 'vitest';
import {
  isCommonState,
  NO_FIT,
  NO_HELP,
  NO_UNIT,
  NOWHERE,
  WAITING_PARTNER,
  NO_COVER,
} from '../../../src/engine/states.ts';
import type { Cause, CauseKind } from '../../../src/record/why/causes.ts';
import {
  isIdle,
  ReasonsRun,
  recordReasons,
  type ShiftReasons,
  type Stood,
} from '../../../src/record/why/reasons.ts';
import { shiftsOf } from '../../../src/scenario/options.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import { SHIPPED, shipped, SHOPS, shop } from '../../support/shops.ts';
import { shiftOf } from '../../support/run-cell.ts';

/** Glue 5, cure 30, unclamp 3, four pieces at the start, one person who takes what has waited longest. */
const glueUp = (sets: number, end: string, more: object = {}): unknown => ({
  format: 1,
  name: 'Glue-up',
  steps: {
    glue: { time: 5, benches: 0, takes: [{ gear: 'clamp', until: 'unclamp' }], ...more },
    cure: { kind: 'wait', time: 30 },
    unclamp: { time: 3, benches: 0 },
  },
  gear: { clamp: { count: sets } },
  people: { ana: { covers: ['glue', 'unclamp'], rule: 'oldest' } },
  intake: { kind: 'at start', units: 4 },
  shift: { start: '06:00', end },
});
const [GLUE, CURE, UNCLAMP] = [0, 1, 2];

const first = (scenario: unknown): ShiftReasons => recordReasons([shiftOf(scenario)], 0)[0]!;
const kinds = (line: Stood[]): [number, number, CauseKind[]][] =>
  line.map(({ from, to, chain }) => [from, to, chain.map(({ kind }) => kind)]);
const minutes = (line: Stood[], kind: CauseKind): number =>
  line.filter(({ chain }) => chain[0]!.kind === kind).reduce((sum, { from, to }) => sum + to - from, 0);

describe('four pieces, two clamp sets, one pair of hands, solved by hand: the last is out at 84', () => {
  const { idle, stood, items, ends } = first(glueUp(2, '07:24'));
  const [set1, set2] = stood[0]!;

  test('set 1 stands free from 76 to 84, as no more pieces come', () => {
    expect(ends).toBe(84);
    expect(kinds(set1!)).toEqual([[76, 84, ['no piece', 'none to come']]]);
  });

  test('set 2 stands free until 5 and waits from 40 to 43: she is at the glue', () => {
    const glueing = (unit: number, until: number, step: number): Cause => ({
      kind: 'busy',
      step,
      person: 0,
      at: GLUE,
      unit,
      until,
    });
    expect(set2!.map(({ from, to, chain }) => [from, to, chain])).toEqual([
      [0, 5, [glueing(0, 5, GLUE)]],
      [40, 43, [glueing(2, 43, UNCLAMP)]],
    ]);
    expect(items[0]![1]!.map(({ from, to }) => to - from)).toEqual([5, 5, 30, 3, 3, 5, 30, 3]);
  });

  test('she has no clamp set for 25 minutes and no piece for 27', () => {
    expect(minutes(idle[0]!, 'no gear')).toBe(25);
    expect(minutes(idle[0]!, 'no piece')).toBe(27);
    expect(idle[0]![0]).toMatchObject({
      from: 10,
      to: 35,
      chain: [
        { kind: 'no gear', step: GLUE, gear: 0 },
        { kind: 'curing', step: CURE, unit: 0, until: 35 },
      ],
      others: [{ kind: 'no piece', step: UNCLAMP, there: 0 }],
    });
  });
});

test('with a third set the shift ends at 76: the sets stand free for 0, 35 and 37 minutes and wait for 0, 3 and 1', () => {
  const { idle, stood, items } = first(glueUp(3, '07:16'));
  const free = stood[0]!.map((line, item) =>
    items[0]![item]!.filter(({ state }) => state === 0).reduce((sum, { from, to }) => sum + to - from, 0),
  );
  const all = stood[0]!.map((line) => line.reduce((sum, { from, to }) => sum + to - from, 0));
  expect(free).toEqual([0, 35, 37]);
  expect(all.map((minutes, item) => minutes - free[item]!)).toEqual([0, 3, 1]);
  expect([minutes(idle[0]!, 'no gear'), minutes(idle[0]!, 'no piece')]).toEqual([20, 24]);
});

test('a glue-up that would still be in hand when the break begins waits, and says so', () => {
  // Whole, planned at its mean of 5: at 8 it would run to 13, the break begins at 10.
  const scenario = {
    ...(glueUp(2, '07:30', { whole: true, time: 4 }) as object),
    shift: { start: '06:00', end: '07:30', breaks: [{ from: '06:10', minutes: 10, name: 'morning break' }] },
  };
  const [set1, set2] = first(scenario).stood[0]!;
  expect(set1![0]!.from).toBeGreaterThan(10);
  expect(set2![0]).toMatchObject({ from: 0, to: 4, chain: [{ kind: 'busy' }] });
  const three = first({ ...scenario, gear: { clamp: { count: 3 } } });
  expect(three.stood[0]![2]!.slice(0, 3).map(({ from, to, chain }) => [from, to, chain[0]])).toEqual([
    [0, 8, { kind: 'busy', step: GLUE, person: 0, at: GLUE, unit: 0, until: 4 }],
    [8, 10, { kind: 'would not fit', before: 'break', step: GLUE, person: 0, until: 10, needed: 4 }],
    [10, 20, { kind: 'off', why: 'break', step: GLUE, person: 0, until: 20 }],
  ]);
  expect(kinds(three.idle[0]!)[0]).toEqual([8, 10, ['would not fit']]);
});

test('a bench held by a piece that cannot move on is followed to the rack and to who should empty it', () => {
  // Fit 5 into a rack of 1 before sand, which takes 20: at 10 the second is blocked behind the first.
  const { idle, stood } = first({
    format: 1,
    name: 'Rack of one',
    steps: { fit: { time: 5 }, sand: { time: 20, rack: 1 } },
    people: { ana: { covers: ['fit'] }, ben: { covers: ['sand'] } },
    intake: { kind: 'at start', units: 4 },
    shift: { start: '06:00', end: '07:00' },
  });
  expect(idle[0]![0]).toMatchObject({
    from: 15,
    to: 25,
    chain: [
      { kind: 'nowhere to put it', step: 0, unit: 2 },
      { kind: 'rack full', step: 1 },
      { kind: 'no gear', step: 1 },
      { kind: 'in hand', step: 1, unit: 0, person: 1, until: 25 },
    ],
  });
  expect(stood[0]![0]![0]).toMatchObject({
    from: 15,
    to: 25,
    chain: [{ kind: 'rack full', step: 1 }, { kind: 'no gear' }, { kind: 'in hand' }],
  });
  expect(kinds(idle[1]!)[0]).toEqual([0, 5, ['no piece', 'in hand']]);
});

test('a last start, a second pair of hands, a hold and an arrival to come are named', () => {
  const day = { start: '06:00', end: '07:00' };
  const shut = first({
    format: 1,
    name: 'Shut',
    steps: { glue: { time: 10, lastStart: '06:15' } },
    people: { ana: { covers: ['glue'] } },
    intake: { kind: 'at start', units: 5 },
    shift: day,
  });
  expect(kinds(shut.idle[0]!)).toEqual([[20, 60, ['shut']]]);
  const two = first({
    format: 1,
    name: 'Two',
    steps: { lift: { time: 10, people: 2 }, sand: { time: 7 } },
    people: { ben: { covers: ['sand', 'lift'] }, ana: { covers: ['lift'] } },
    carryOver: [{ at: 'sand' }],
    intake: { kind: 'at start', units: 2 },
    shift: day,
  });
  expect(kinds(two.idle[1]!)[0]).toEqual([0, 7, ['no second', 'busy']]);
  const late = first({
    format: 1,
    name: 'Late',
    steps: { sand: { time: 10 } },
    people: { ana: { covers: ['sand'] } },
    intake: { kind: 'list', arrivals: [{ at: '06:20' }] },
    shift: day,
  });
  expect(kinds(late.idle[0]!)).toEqual([
    [0, 20, ['no piece', 'not come yet']],
    [30, 60, ['no piece', 'none to come']],
  ]);
});

/** The reason that the run itself has for somebody who is without work. */
const TOLD: Record<number, CauseKind[]> = {
  [NO_UNIT]: ['no piece', 'nothing new', 'none sent back'],
  [NOWHERE]: ['nowhere to put it'],
  [NO_FIT]: ['would not fit', 'shut', 'day over'],
  [NO_HELP]: ['no second'],
  [WAITING_PARTNER]: ['other of two'],
  [NO_COVER]: ['no post'],
};

const CELLS: [string, () => Scenario][] = [
  ...SHIPPED.map((name): [string, () => Scenario] => [name, () => shipped(name)]),
  ...SHOPS.map((name): [string, () => Scenario] => [name, () => shop(name)]),
];

test.each(CELLS)(
  '%s: no cause is unknown, every minute is told once, the first cause is the run’s own',
  (_, of) => {
    const run = new ReasonsRun(shiftsOf(of()));
    const amiss: unknown[] = [];
    for (let replication = 0; replication < 12; replication++)
      for (const shift of run.reasons(replication)) amiss.push(...faultsOf(shift));
    expect(amiss).toEqual([]);
  },
);

function faultsOf({ people, items, idle, stood, ends }: ShiftReasons): unknown[] {
  const faults: unknown[] = [];
  const length = (line: { from: number; to: number }[]): number =>
    line.reduce((sum, { from, to }) => sum + to - from, 0);
  for (const line of [...people, ...items.flat()])
    if (Math.abs(length(line) - ends) > 1e-9) faults.push(['minutes', line]);
  for (const one of [...idle, ...stood.flat()].flat())
    if (one.chain.length === 0 || [...one.chain, ...one.others].some(({ kind }) => kind === 'unknown'))
      faults.push(one);
  people.forEach((line, person) => {
    const without = line.filter(({ state }) => isIdle(state, items.length));
    if (Math.abs(length(without) - length(idle[person]!)) > 1e-9)
      faults.push(['idle', person, without, idle[person]]);
    for (const { from, to, state } of without)
      for (const { chain } of idle[person]!.filter((one) => one.from < to && one.to > from))
        if (!(isCommonState(state) ? TOLD[state]! : ['no gear']).includes(chain[0]!.kind))
          faults.push(['told', person, from, state, chain]);
  });
  return faults;
}
