/** What set a shift apart, on rows that are written down by hand. */
import { describe, expect, test } from 'vitest';
import { NOT_IN, OUT_OF_ORDER, workingAt } from '../../src/engine/states.ts';
import { layoutOfShift } from '../../src/record/layout.ts';
import { scalarAt } from '../../src/record/report.ts';
import { apartWords, piecesWords } from '../../src/report/replay/apart-words.ts';
import { shownName } from '../../src/report/replay/chosen.ts';
import { besideOthers, whatSetApart } from '../../src/study/apart.ts';
import { shiftOf } from '../support/run-cell.ts';

const shift = shiftOf({
  format: 1,
  name: 'Sanders',
  steps: { sand: { time: 10, rework: [{ to: 'sand', percent: 10, cause: 'scratch' }] } },
  gear: { jig: { name: 'jig', count: 1 } },
  people: { ana: { name: 'Ana', covers: ['sand'] } },
  intake: { kind: 'at start', units: 30 },
  shift: { start: '06:00', end: '14:00' },
});
const layout = layoutOfShift(shift);
const { at } = layout;

interface Written {
  good: number;
  scrap?: number;
  notIn?: number;
  minutes?: number;
  sentBack?: number;
  out?: number;
}

/** One row a shift; ten starts of 10 minutes each unless it says otherwise. */
function rowsOf(written: Written[]): Float64Array {
  const rows = new Float64Array(written.length * layout.size);
  written.forEach(({ good, scrap = 0, notIn = 0, minutes = 100, sentBack = 0, out = 0 }, i) => {
    const row = rows.subarray(i * layout.size, (i + 1) * layout.size);
    row[scalarAt(layout, 'good')] = good;
    row[scalarAt(layout, 'scrap')] = scrap;
    row[scalarAt(layout, 'arrived')] = 30;
    row[at.personMinutes + NOT_IN] = notIn;
    row[at.personMinutes + workingAt(shift.gear.length, 0)] = minutes;
    row[at.starts] = 10;
    row[at.rework] = sentBack;
    row[at.gearMinutes + shift.gear.findIndex(({ id }) => id === 'jig') * layout.gearStates + OUT_OF_ORDER] =
      out;
  });
  return rows;
}

const usual: Written[] = Array.from({ length: 4 }, () => ({ good: 10 }));
const BAD = { replication: 4, kind: 'bad' };

describe('one trait that is another in the last of five shifts, and five pieces fewer with it', () => {
  // The mean is 9; the line through five points, four of them one, goes through both: 4 fewer than the mean.
  test.each([
    [{ scrap: 5 }, 'scrap', 'What set it apart: 5 pieces scrapped (1.0 as a rule).'],
    [{ notIn: 480 }, 'not in', 'What set it apart: Ana was not in.'],
    [{ notIn: 25 }, 'not in', 'What set it apart: Ana was 25 minutes late.'],
    [
      { minutes: 150 },
      'minutes a piece',
      'What set it apart: sand took 15.0 minutes a piece (11.0 as a rule).',
    ],
    [
      { sentBack: 3 },
      'sent back',
      'What set it apart: 3 pieces went back from sand to sand (“scratch”) (0.6 as a rule).',
    ],
    [{ out: 60 }, 'gear out', 'What set it apart: jigs were out of order for 60 minutes (12 as a rule).'],
  ] as const)('%o', (trait, kind, words) => {
    const apart = whatSetApart(shift, rowsOf([...usual, { good: 5, ...trait }]), 4);
    expect(apart.map((one) => one.trait.kind)).toEqual([kind]);
    expect(apart[0]!.pieces).toBeCloseTo(-4, 9);
    expect(apartWords(apart, BAD, shift)).toBe(words);
    expect(piecesWords(apart[0]!)).toBe('with that go about 4.0 good pieces fewer as a rule');
  });
});

test('pieces that came late are told by their time', () => {
  const rows = rowsOf([...usual, { good: 5 }]);
  const all = { pieces: 12, mean: 120, spread: 20, perMinute: -0.05 };
  const apart = whatSetApart(shift, rows, 4, { by: 180, all });
  expect(apart).toMatchObject([{ trait: { kind: 'come by', pieces: 12 }, value: 180, mean: 120 }]);
  expect(apart[0]!.pieces).toBeCloseTo(-3, 9);
  expect(apartWords(apart, BAD, shift)).toBe(
    'What set it apart: 12 pieces had come in only by 09:00 (08:00 as a rule).',
  );
  expect(whatSetApart(shift, rows, 4, { by: 135, all })).toEqual([]);
});

test('what goes with more is no word of a bad shift, nor what is not far from the others', () => {
  const scrap = [0, 1, 2, 1, 1.5];
  const rows = rowsOf(scrap.map((one, i) => ({ good: [12, 10, 8, 10, 5][i]!, scrap: one })));
  // 0.4 over a mean of 1.1 is under one standard deviation (0.66).
  expect(whatSetApart(shift, rows, 4)).toEqual([]);
  const more = rowsOf([...usual.map((one, i) => ({ ...one, scrap: i })), { good: 5, scrap: 0 }]);
  expect(whatSetApart(shift, more, 4).filter(({ pieces }) => pieces > 0)).toEqual([]);
  expect(apartWords([], BAD, shift)).toBe('Nothing by itself set it apart: many small things came together.');
  expect(apartWords([], { replication: 0, kind: 'typical' }, shift)).toBe('');
});

test('of several shifts in a row each is held against itself', () => {
  const rows = rowsOf([...usual, { good: 5 }]);
  expect(besideOthers(shift, rows, 0)).toEqual({ own: 10, mean: 9 });
  expect(apartWords([], BAD, shift, { own: 10, mean: 9 })).toMatch(
    /^By itself it made more than it does as a rule \(9\.0\)\. /,
  );
  expect(apartWords([], BAD, shift, { own: 5, mean: 9 })).toMatch(/^It makes 9\.0 as a rule\. /);
  expect(shownName(BAD, { shifts: 3, good: 27 }, 'Tuesday')).toBe(
    'A bad run of 3 shifts, 27 good pieces in all. Of it, Tuesday',
  );
});
