/** What stood in a shift, the dearest first, and the words for it. */
import { describe, expect, test } from 'vitest';
import { FREE } from '../../src/engine/states.ts';
import { ReasonsRun, recordReasons } from '../../src/record/why/reasons.ts';
import { chosen } from '../../src/report/replay/chosen.ts';
import { standsOf, standWords, whyLines } from '../../src/report/replay/stands.ts';
import { shiftsOf } from '../../src/scenario/options.ts';
import { resolvePlant } from '../../src/scenario/resolve.ts';
import { rankShifts } from '../../src/study/ranked.ts';
import { inLineRunner } from '../../src/work/in-line.ts';
import { shiftOf } from '../support/run-cell.ts';
import { shipped, shop, SHOPS } from '../support/shops.ts';

const NO_WORTH = { margin: null, currency: '$' };

describe('worked out by hand: Ben is away when the first piece is cured', () => {
  // Glue 5, cure 20, unclamp 5; he is away from 25 to 55. Three pieces: 0 to 60, 60 to 90, 90 to 120.
  const shift = shiftOf({
    format: 1,
    name: 'Glue-up',
    steps: {
      glue: { time: 5, takes: [{ gear: 'clamp', until: 'unclamp' }] },
      cure: { kind: 'wait', time: 20 },
      unclamp: { time: 5 },
    },
    gear: { clamp: { name: 'clamp set', count: 1 } },
    people: {
      ana: { name: 'Ana', covers: ['glue'] },
      ben: { name: 'Ben', covers: ['unclamp'], away: [{ from: '06:25', to: '06:55' }] },
    },
    intake: { kind: 'at start', units: 3 },
    shift: { start: '06:00', end: '08:00' },
  });
  const stands = standsOf(shift, recordReasons([shift], 0)[0]!);

  test('the clamp set comes first: 30 minutes, where a piece holds it for 30, are room for one', () => {
    expect(stands[0]).toMatchObject({ kind: 'gear', from: 25, to: 55, lost: 30, units: 1 });
    expect(standWords(stands[0]!, shift, NO_WORTH)).toBe(
      'Clamp set stood with a piece (waiting for hands: unclamp is next) for 30 minutes, 06:25 to 06:55: room for 1.0 piece while one was there.',
    );
    expect(standWords(stands[0]!, shift, { margin: 40, currency: '$' })).toContain(
      'room for 1.0 piece ($40) while one was there.',
    );
    expect(whyLines(stands[0]!, shift)).toEqual([
      '1 piece stood before unclamp; Ben was on another line until 06:55.',
    ]);
  });

  test('who waits for a clamp set has lost nothing by that; the longest comes first', () => {
    const people = stands.filter(({ kind }) => kind === 'person');
    expect(people.every(({ units }) => units === 0)).toBe(true);
    expect(people.map(({ index, from, to }) => [index, from, to])).toEqual(
      [
        [0, 5, 60],
        [0, 65, 90],
        [1, 0, 25],
        [0, 95, 120],
        [1, 60, 85],
        [1, 90, 115],
      ].sort((a, b) => b[2]! - b[1]! - (a[2]! - a[1]!) || a[1]! - b[1]!),
    );
    expect(standWords(people[0]!, shift, NO_WORTH)).toBe(
      'Ana was without work for 55 minutes, 06:05 to 07:00.',
    );
  });
});

test('the 48 minutes of a free clamp set in the demo’s typical shift are explained in words', async () => {
  const scenario = shipped('chair-works');
  const shifts = shiftsOf(scenario);
  const { replication } = chosen(await rankShifts(shifts, 200, inLineRunner()), 'typical');
  const stands = standsOf(shifts[0]!, recordReasons(shifts, replication)[0]!);
  const free = stands.find(({ kind, from, to }) => kind === 'gear' && Math.round(to - from) === 48)!;
  expect(standWords(free, shifts[0]!, resolvePlant(scenario).money)).toMatch(
    /^Clamp set 2 stood free for 48 minutes, 09:53 to 10:41: room for 1\.\d pieces \(\$\d+\) while some were there\.$/,
  );
  expect(stands.indexOf(free)).toBeLessThan(3);
  expect(whyLines(free, shifts[0]!).join(' ')).toBe(
    '09:53: 2 pieces stood before glue and clamp; Tova would not have been through glue and clamp before the meal break at 10:00 (12 min are reckoned). 10:00: 3 pieces stood before glue and clamp; Tova was on a break until 10:30. 10:30: 3 pieces stood before glue and clamp; Tova was at unclamp, piece 13, until 10:35. 10:35: The bench at glue and clamp was in use; piece 14 was in hand at glue and clamp (Tova) until 10:41.',
  );
});

test.each(SHOPS)('%s: every stretch has words, none more room than pieces that were there', (name) => {
  const scenario = shop(name);
  const shifts = shiftsOf(scenario);
  const { money } = resolvePlant(scenario);
  const run = new ReasonsRun(shifts);
  for (let replication = 0; replication < 3; replication++)
    run.reasons(replication).forEach((reasons, i) => {
      const stands = standsOf(shifts[i]!, reasons);
      expect(stands.map(({ units }) => units)).toEqual(
        stands.map(({ units }) => units).sort((a, b) => b - a),
      );
      for (const stand of stands) {
        const said = [standWords(stand, shifts[i]!, money), ...whyLines(stand, shifts[i]!)].join(' ');
        expect(said).not.toMatch(/undefined|NaN|not known| {2}|\.\./);
        const isForPieces = stand.parts.every(
          ({ chain, state }) => chain[0]!.kind === 'no piece' && state === FREE,
        );
        if (stand.kind === 'gear' && isForPieces) expect(stand.units, said).toBe(0);
        expect(stand.units).toBeLessThanOrEqual(Math.max(1, ...stand.parts.map(({ there }) => there)));
      }
    });
});
