import { describe, expect, it } from 'vitest';
import { handoverPage } from '../../src/report/handover.ts';
import { toText } from '../../src/document/document-text.ts';
import { checkHandover } from '../../src/today/check-now.ts';
import { emptyNow, stateAt, type NowState } from '../../src/today/state.ts';
import { minutesToNextStart, tomorrow } from '../../src/today/tomorrow.ts';
import { checkScenario } from '../../src/scenario/check.ts';
import type { Scenario } from '../../src/scenario/schema.ts';
import { shop } from '../support/shops.ts';
import { runOf, scenarioOf, withoutChance } from './support.ts';

const bench: Scenario = {
  format: 1,
  name: 'Bench',
  products: { straight: { name: 'straight' }, long: { times: { cure: 2000 } } },
  steps: {
    glue: { time: 10, takes: [{ gear: 'clamp', until: 'unclamp' }] },
    cure: { kind: 'wait', time: 30 },
    unclamp: { time: 5, benches: 0 },
    rest: { kind: 'wait', time: 60 },
    sand: { name: 'sand', time: 20, rework: [{ to: 'glue', percent: 1 }] },
  },
  gear: { clamp: { count: 4 } },
  people: { ada: { name: 'Ada', covers: ['glue', 'unclamp', 'sand'] } },
  shift: { start: '06:00', end: '14:30', target: 10, allowance: 1.1 },
};
const end: NowState = {
  ...emptyNow('14:30'),
  good: 7,
  inside: [
    { at: 'cure', state: 'curing', minutes: 12, product: 'straight', name: 'stool' },
    { at: 'cure', state: 'curing', minutes: 1800, product: 'long' },
    { at: 'rest', state: 'curing', minutes: 20, product: 'straight' },
    { at: 'sand', units: 3, product: 'straight', due: '14:00' },
    { at: 'sand', state: 'in hand', person: 'ada', minutes: 12, product: 'straight' },
  ],
  holds: [{ before: 'sand', until: '16:00', product: 'straight', whose: 'the foreman' }],
};

describe('the morning after', () => {
  const next = tomorrow(bench, end, minutesToNextStart(bench, end));
  it('starts fifteen and a half hours later', () => expect(minutesToNextStart(bench, end)).toBe(930));
  it('finds cured what cured overnight, the rest of a longer cure, and the piece in hand put down with what is left of it', () => {
    expect(next.carryOver).toEqual([
      { at: 'unclamp', name: 'stool', product: 'straight', arrived: 0 },
      { at: 'cure', state: 'curing', minutes: 870, product: 'long', arrived: 0 },
      { at: 'sand', product: 'straight', arrived: 0 },
      { at: 'sand', units: 3, product: 'straight', dueIn: -960, arrived: 0 },
      { at: 'sand', state: 'put down', minutes: 10, product: 'straight', arrived: 0 },
    ]);
    expect(next.holds).toEqual([]);
  });
  it('is a file that runs, and the pieces are all in it: none lost, none made', () => {
    expect(checkScenario(next).kind).toBe('fine');
    for (const name of ['cell-k', 'chair-works', 'door-works']) {
      const scenario = scenarioOf(name);
      for (const replication of [0, 1, 2]) {
        const now = stateAt(scenario, runOf(scenario, replication), 505);
        const checked = checkHandover(scenario, now);
        expect(checked.kind === 'wrong' ? checked.faults : [], name).toEqual([]);
        if (checked.kind === 'wrong') continue;
        const opening = runOf({ ...checked.rest, intake: { kind: 'at start', units: 0 } });
        expect(opening.filter((one) => one.event === 'arrives' && one.time <= 0).length, name).toBe(
          now.inside.length,
        );
      }
    }
  });
  it('takes up a piece put down where it was left: the first sanding of the morning ends after the minutes it had left', () => {
    const fixed = withoutChance({
      ...next,
      carryOver: next.carryOver!.slice(-1),
      intake: { kind: 'at start', units: 0 },
    });
    expect(
      runOf(fixed)
        .filter((one) => one.event === 'good')
        .map((one) => one.time),
    ).toEqual([10 * 60_000]);
  });
});

describe('the handover page', () => {
  const text = toText(
    handoverPage({
      scenario: bench,
      now: { ...end, broken: [{ gear: 'clamp', items: 1, minutes: 90 }] },
      promised: 'eight, to the office',
      note: 'The long one is for Friday.',
      events: [
        {
          time: 1,
          event: 'rework',
          unit: '1',
          product: '',
          step: 'sand',
          person: '',
          second: '',
          gear: '',
          item: 0,
          detail: 'glue: open joint',
        },
      ],
    }),
    100,
  );
  it('says the number, the promise, what stands where, when each clamp comes off, whose the hold is, causes, what is broken, the note', () => {
    for (const words of [
      '7 good of the 10 due by 14:30; 7 pieces in the cell',
      'Promised: eight, to the office',
      '14:42',
      'stool',
      'with Ada',
      'the foreman',
      'open joint',
      '1 clamp out of order',
      'The long one is for Friday.',
    ])
      expect(text).toContain(words);
  });
  it('fits on one page of sixty lines, none wider than a hundred columns', () => {
    expect(text.split('\n').length).toBeLessThan(60);
    expect(Math.max(...text.split('\n').map((line) => line.length))).toBeLessThanOrEqual(100);
  });
  it('says so where nothing is left and nothing came back', () => {
    const empty = toText(
      handoverPage({
        scenario: bench,
        now: { ...emptyNow('14:30'), good: 10 },
        promised: null,
        events: [],
        note: '',
      }),
      100,
    );
    expect(empty).toContain('the cell is empty');
    expect(empty).toContain('Nothing came back.');
  });
});

describe('a hold on named pieces', () => {
  const frames = shop('frame-works');
  const held = frames.holds![0]!;
  const count = { ...emptyNow('09:00'), good: 3, holds: [held] };
  it('is over with the pieces, and hands over what is left', () => {
    const checked = checkHandover(frames, count);
    expect(checked.kind === 'fine' ? checked.rest.holds : checked.faults).toEqual([]);
  });
  it('stays with those that are still there', () => {
    const inside = [{ at: 'sand', name: held.units![0]! }];
    const checked = checkHandover(frames, { ...count, at: '15:00', inside });
    expect(checked.kind === 'fine' ? checked.rest.holds : checked.faults).toEqual([held]);
  });
});
