import { describe, expect, it } from 'vitest';
import { checkHandover, checkNow } from '../../src/today/check-now.ts';
import { forecastNow } from '../../src/today/forecast.ts';
import { meanLeft, meanMinutes } from '../../src/today/mean-minutes.ts';
import { possibleMoves, tryMoves } from '../../src/today/moves.ts';
import { remainder } from '../../src/today/remainder.ts';
import { emptyNow, stateAt, type NowState } from '../../src/today/state.ts';
import { helpfulMoves } from '../../src/report/now-page.ts';
import { resolve } from '../../src/scenario/resolve.ts';
import type { Scenario } from '../../src/scenario/schema.ts';
import { meanInterval } from '../../src/study/intervals/mean-interval.ts';
import { inLineRunner } from '../../src/work/in-line.ts';
import { runOf, scenarioOf } from './support.ts';

const runner = inLineRunner();
const goodIn = (scenario: Scenario, replication: number): number =>
  runOf(scenario, replication).filter((one) => one.event === 'good').length;

describe('the forecast from a count', () => {
  it('agrees in the mean with the whole shifts it was counted from, times and rework random', () => {
    const scenario = scenarioOf('cell-k');
    // What a rest ends at, less what its own shift came to: by the law of total expectation nothing on
    // average.
    const differences = Array.from({ length: 150 }, (_, replication) => {
      const record = runOf(scenario, replication);
      const now = stateAt(scenario, record, 200);
      const rest = remainder(scenario, now);
      const soFar = now.goodByHour.reduce((sum, good) => sum + good, 0);
      const after = [0, 1, 2, 3].map((again) => goodIn({ ...rest, seed: `again ${replication}` }, again));
      return (
        soFar +
        after.reduce((sum, good) => sum + good, 0) / 4 -
        record.filter((one) => one.event === 'good').length
      );
    });
    const mean = differences.reduce((sum, one) => sum + one, 0) / differences.length;
    const deviation = Math.sqrt(
      differences.reduce((sum, one) => sum + (one - mean) ** 2, 0) / (differences.length - 1),
    );
    const { low, high } = meanInterval(differences.length, mean, deviation, 0.999);
    expect(high - low).toBeLessThan(1);
    expect([low < 0, high > 0]).toEqual([true, true]);
  });

  it('stands at the hours of the shift, from the count on, never falls, and ends where the shift ends', async () => {
    const scenario = { ...scenarioOf('cell-k'), shift: { ...scenarioOf('cell-k').shift, target: 16 } };
    const now = stateAt(scenario, runOf(scenario, 3), 280);
    const forecast = await forecastNow(scenario, now, runner, undefined, 60);
    expect(forecast.ahead.map((line) => line.at)).toEqual([280, 300, 360, 420, 480, 510]);
    expect(forecast.plan.map((line) => line.at)).toEqual([60, 120, 180, 240, 280, 300, 360, 420, 480, 510]);
    expect(forecast.fact.map((line) => line.at)).toEqual([0, 60, 120, 180, 240, 280]);
    expect(forecast.fact.at(-1)!.good).toBe(forecast.soFar);
    for (const lines of [forecast.ahead, forecast.plan]) {
      for (let i = 1; i < lines.length; i++)
        for (const key of ['low', 'middle', 'high'] as const)
          expect(lines[i]![key]).toBeGreaterThanOrEqual(lines[i - 1]![key]);
    }
    expect(forecast.ahead.at(-1)!.middle).toBe(forecast.ends.half);
    expect(forecast.target!.units).toBe(16);
  });

  it('says the target is certain once it is made', async () => {
    const scenario = { ...scenarioOf('cell-k'), shift: { ...scenarioOf('cell-k').shift, target: 3 } };
    const forecast = await forecastNow(scenario, { ...emptyNow('10:00'), good: 4 }, runner, undefined, 30);
    expect(forecast.target).toMatchObject({ units: 3, chance: { estimate: 1 } });
  });
});

describe('minutes left', () => {
  const shift = resolve({
    format: 1,
    name: 'Bench',
    products: { straight: {}, bent: { factors: { sand: 2 } } },
    shift: { allowance: 1.1 },
    steps: {
      sand: { time: { curve: 'uniform', least: 0, most: 20 }, repeatTime: 4 },
      cure: { kind: 'wait', time: 30 },
      check: { time: { curve: 'exponential', mean: 6 } },
    },
    people: { ada: { covers: ['sand', 'check'], skills: { sand: 2, check: 3 } }, ben: { covers: ['sand'] } },
  });
  it('are the mean with product, person (the slower of two) and allowance; a wait has none of them', () => {
    expect(meanMinutes(shift, { at: 'sand', product: 'bent' })).toBeCloseTo(10 * 2 * 1.1, 9);
    expect(meanMinutes(shift, { at: 'sand' }, ['ben', 'ada'])).toBeCloseTo(10 * 1.25 * 1.1, 9);
    expect(meanMinutes(shift, { at: 'cure' })).toBe(30);
    expect(meanMinutes(shift, { at: 'sand', visits: { sand: 1 } })).toBeCloseTo(4.4, 9);
  });
  it('are those of the times longer than what it has had: half of what a uniform time leaves, always the mean of an exponential', () => {
    expect(meanLeft(shift, { at: 'sand' }, 11)).toBeCloseTo((22 - 11) / 2, 2);
    expect(meanLeft(shift, { at: 'check' }, 20)).toBeCloseTo(6.6, 1);
    expect(meanLeft(shift, { at: 'cure' }, 12)).toBeCloseTo(18, 9);
    expect(meanLeft(shift, { at: 'cure' }, 31)).toBe(0);
  });
});

describe('a count that cannot be', () => {
  const scenario = scenarioOf('cell-k');
  const faults = (change: Partial<NowState> | Record<string, unknown>): string => {
    const checked = checkNow(scenario, { ...emptyNow('10:00'), ...change });
    return checked.kind === 'wrong' ? checked.faults.join(' ') : '';
  };
  it.each([
    ['a time that is none', { at: '25:00' }, /HH:MM/],
    ['a time long outside the shift', { at: '20:00' }, /not within the shift/],
    ['a step there is not', { inside: [{ at: 'paint' }] }, /no step is called "paint"; there are fit/],
    [
      'more curing than there are clamp sets',
      { inside: [{ at: 'cure', state: 'curing', minutes: 5, units: 3 }] },
      /clamp/,
    ],
    ['a person there is not', { out: ['nobody'] }, /nobody is called "nobody"/],
    [
      'more broken clamp sets than there are',
      { broken: [{ gear: 'clamp', items: 9, minutes: 5 }] },
      /only 2/,
    ],
    ['gear there is not', { broken: [{ gear: 'lift', items: 1, minutes: 5 }] }, /no gear "lift"/],
    ['fewer than none good', { good: -1 }, /good/],
  ])('is refused in a sentence: %s', (_, change, words) => {
    expect(faults(change)).toMatch(words);
  });
  it('is refused where one person has two pieces in hand', () => {
    const id = Object.keys(scenario.people)[0]!;
    const at = scenario.people[id]!.covers![0]!;
    const piece = { at, state: 'in hand' as const, person: id, minutes: 1 };
    expect(faults({ inside: [piece, piece] })).not.toBe('');
    expect(faults({ inside: [piece] })).toBe('');
  });
  it('can be told and handed over at the end, when nothing more is done', () => {
    const end = { ...emptyNow('14:30'), inside: [{ at: 'sand', units: 2 }] };
    expect(checkNow(scenario, end).kind).toBe('fine');
    expect(checkHandover(scenario, end)).toMatchObject({
      kind: 'fine',
      rest: { carryOver: [{ at: 'sand', units: 2 }] },
    });
  });
});

describe('moves', () => {
  const bench: Scenario = {
    format: 1,
    name: 'Bench',
    steps: { fit: { time: 10, benches: 2 }, sand: { time: 10, benches: 2 } },
    people: {
      ada: { name: 'Ada', skills: { fit: 3, sand: 3 }, covers: ['fit'] },
      ben: { name: 'Ben', skills: { fit: 3 } },
    },
    shift: { end: '10:00', breaks: [{ from: '08:00', minutes: 10 }], target: 20 },
    intake: { kind: 'at start', units: 0 },
  };
  const now: NowState = {
    ...emptyNow('06:30'),
    inside: [
      { at: 'sand', units: 12 },
      { at: 'sand', name: 'Harbour order' },
    ],
  };
  const rest = remainder(bench, now);

  it('are tried where they can matter: not the step somebody stands at first already, nor a person who is not here', () => {
    const posts = (state: NowState): string[] =>
      possibleMoves(rest, state)
        .filter((one) => one.kind === 'post')
        .map((one) => one.id);
    expect(posts(now)).toEqual(['post-ada-sand']);
    expect(posts({ ...now, out: ['ada'] })).toEqual([]);
  });
  it('leave the order of steps alone for who takes the oldest piece anyway', () => {
    const oldest = {
      ...rest,
      people: {
        ...rest.people,
        ada: { ...rest.people['ada'], covers: ['fit', 'sand'], rule: 'oldest' as const },
      },
    };
    expect(possibleMoves(oldest, now).filter((one) => one.kind === 'post')).toEqual([]);
  });
  it('offer a named piece that waits behind others to go first, and nothing of the kind where none has a name', () => {
    expect(
      possibleMoves(rest, now)
        .filter((one) => one.kind === 'rush')
        .map((one) => one.name),
    ).toEqual(['“Harbour order” first at every step']);
    const nameless = remainder(bench, { ...now, inside: [{ at: 'sand', units: 12 }] });
    expect(possibleMoves(nameless, now).filter((one) => one.kind === 'rush')).toEqual([]);
  });
  it('find the one that helps, by what it is worth when worked out by hand, and recommend none whose range covers zero', async () => {
    const tried = await tryMoves(rest, possibleMoves(rest, now), runner, undefined, 30);
    // Nobody sands as things stand. Ada alone from 06:30 to 10:00, ten minutes off: 200 minutes, twenty
    // pieces, of which there are thirteen.
    expect(tried[0]).toMatchObject({ move: { id: 'post-ada-sand' }, gain: { estimate: 13 } });
    expect(helpfulMoves(tried).map(({ move }) => move.id)).toEqual(['post-ada-sand']);
    expect(helpfulMoves(tried).every(({ gain }) => gain.low > 0)).toBe(true);
    expect(tried.length).toBeGreaterThan(4);
  });
});
