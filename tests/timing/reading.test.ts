import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { momentOf } from '../../src/timing/clock-text.ts';
import { roleOf } from '../../src/timing/header-words.ts';
import { guessMapping, type NamesOf } from '../../src/timing/mapping.ts';
import { decimalOf, minutesOf, ratingOf } from '../../src/timing/minutes-text.ts';
import { readObservations } from '../../src/timing/read-observations.ts';
import { readTable } from '../../src/timing/table.ts';
import { holds } from '../support/holds.ts';

const cell: NamesOf = {
  steps: {
    fit: { time: 14, name: 'Dry fit' },
    glue: { time: 9, name: 'Glue and clamp' },
    sand: { time: 24 },
    check: { time: 4 },
  },
  products: { straight: { name: 'Straight-backed' }, bent: { name: 'Bent-back' } },
  people: { orla: { name: 'Orla' }, ines: { name: 'Inés' } },
};
const read = (text: string, change: Partial<ReturnType<typeof guessMapping>> = {}) => {
  const table = readTable(text);
  return { table, ...readObservations(table, { ...guessMapping(table, cell), ...change }, cell) };
};
const minutes = (text: string): number => {
  const value = minutesOf(text, 'minutes', 'mm:ss');
  return value.ok ? value.value : NaN;
};

describe('thousands', () => {
  it.each([
    ['1,800', 'seconds'],
    ['12,345', 'seconds'],
    ['1,200', 'minutes'],
  ] as const)('%s %s may be read in two ways and is not guessed', (text, unit) => {
    expect(minutesOf(text, unit, 'mm:ss')).toMatchObject({
      ok: false,
      why: expect.stringMatching(/may be \d+ or/),
    });
  });
  it('are none where only the decimals make sense', () => {
    expect(minutesOf('12,345', 'minutes', 'mm:ss')).toEqual({ ok: true, value: 12.345 });
    expect(minutesOf('0,125', 'seconds', 'mm:ss')).toEqual({ ok: true, value: 0.125 / 60 });
    expect(minutesOf('1,800.5', 'seconds', 'mm:ss')).toEqual({ ok: true, value: 1800.5 / 60 });
  });
});

describe('lengths of time', () => {
  it.each([
    ['12.5', 12.5],
    ['12,5', 12.5],
    ['12:30', 12.5],
    ['1h 05', 65],
    ['1 h 5 min 30 s', 65.5],
    ['90 s', 1.5],
    ['8 min', 8],
    ["8'30''", 8.5],
    ["8'30", 8.5],
    ['4 min 30', 4.5],
    ['1:02:30', 62.5],
    ['0:45', 0.75],
    ['12 Min.', 12],
    ['1.234,5', 1234.5],
    ['1,234.5', 1234.5],
    ['  7 ', 7],
    ['1 Std. 10 Min.', 70],
  ])('reads %s as %d minutes', (text, expected) => expect(minutes(text)).toBeCloseTo(expected, 12));

  it.each([
    '',
    '-',
    'ca. 12',
    '-3',
    '0',
    '0:00',
    '12:75',
    '2000',
    '1.2.3',
    'NaN',
    '1e3',
    '12 bananas',
    '12,5,3',
    '12 13',
    '1 2',
  ])('refuses %j with a reason', (text) => {
    const value = minutesOf(text, 'minutes', 'mm:ss');
    expect(value.ok).toBe(false);
    if (!value.ok) expect(value.why.length).toBeGreaterThan(8);
  });

  it('counts bare numbers in the unit of the column, and 1:05 as it is told to', () => {
    expect(minutesOf('90', 'seconds', 'mm:ss')).toEqual({ ok: true, value: 1.5 });
    expect(minutesOf('1,5', 'hours', 'mm:ss')).toEqual({ ok: true, value: 90 });
    expect(minutesOf('1:05', 'minutes', 'h:mm')).toEqual({ ok: true, value: 65 });
  });

  it('reads ratings as factors and refuses those nobody works at', () => {
    expect(ratingOf('1.2')).toEqual({ ok: true, value: 1.2 });
    expect(ratingOf('95')).toEqual({ ok: true, value: 0.95 });
    expect(ratingOf('110 %')).toEqual({ ok: true, value: 1.1 });
    expect(ratingOf('0').ok).toBe(false);
  });

  it('knows one decimal sign only', () =>
    expect(['1.2.3', '1,2,3', '--1', '1 . 2x'].map(decimalOf)).toEqual([NaN, NaN, NaN, NaN]));
});

describe('times of day', () => {
  const at = (text: string, order: 'day first' | 'month first' = 'day first') => {
    const value = momentOf(text, order);
    return value.ok
      ? [value.value.day, value.value.minute === null ? null : Math.round(value.value.minute * 60) / 60]
      : value.why;
  };
  const march5 = Date.UTC(2024, 2, 5) / 86_400_000;

  it.each([
    ['06:00', [null, 360]],
    ['6:05 pm', [null, 1085]],
    ['6.05', [null, 365]],
    ['12:10 AM', [null, 10]],
    ['12:00 p.m.', [null, 720]],
    ['0605', [null, 365]],
    ['06:00:30', [null, 360.5]],
    ['6h05', [null, 365]],
    ['2024-03-05 06:00', [march5, 360]],
    ['2024-03-05T06:00:00Z', [march5, 360]],
    ['05.03.2024 6:00', [march5, 360]],
    ['5/3/24, 6:00', [march5, 360]],
    ['5 Mar 2024', [march5, null]],
    ['5. März 2024 06:00', [march5, 360]],
    ['Mar 5, 2024 6:00 am', [march5, 360]],
    ['45356.25', [march5, null]],
    ['45356.250', [march5, 360]],
    ['0.250', [null, 360]],
    ['24:00', [null, 1440]],
  ])('reads %s', (text, expected) => expect(at(text)).toEqual(expected));

  it('turns day and month round where it is told to, but not where only one way makes a date', () => {
    expect(at('3/5/2024', 'month first')).toEqual([march5, null]);
    expect(at('13/5/2024', 'month first')).toEqual([Date.UTC(2024, 4, 13) / 86_400_000, null]);
  });

  it.each(['25:00', '6:75', '13:00 pm', 'noon', '31.02.2024', '2024-13-01', ''])('refuses %j', (text) =>
    expect(momentOf(text, 'day first').ok).toBe(false),
  );
});

describe('column names', () => {
  it.each([
    ['Step', 'step'],
    ['Arbeitsgang', 'step'],
    ['Étape', 'step'],
    ['Start time', 'start'],
    ['Dauer (Min.)', 'minutes'],
    ['Time taken [sec]', 'minutes'],
    ['Who', 'person'],
    ['Mitarbeiter', 'person'],
    ['Datum', 'date'],
    ['Rating %', 'rating'],
    ['End', 'end'],
    ['Product', 'product'],
    ['Visit', 'repeat'],
  ])('takes %s for the %s', (name, role) => expect(roleOf(name)).toBe(role));
  it('takes no other word for anything', () =>
    expect(['', '17', 'weather', 'glue lot'].map(roleOf)).toEqual([null, null, null, null]));
});

// Invented for this test: nothing in it was measured.
const MESSY =
  '\ufeff' +
  [
    'Chair works, stopwatch study (invented);;;;;;',
    '',
    'Datum;Arbeitsgang;Modell;Wer;Von;Bis;Dauer (Min.);Bemerkung',
    '05.03.2024;Dry fit;Straight-backed;Orla;06:12;06:25:30;;',
    '05.03.2024;dry FIT;bent;Orla;;;21,5;"knot; awkward"',
    '13.03.2024;sand;straight;Ines;23:50;00:15;;over midnight',
    '13.03.2024;Sandd;straight;Inés;;;24;typo',
    '13.03.2024;glue;straight;Kofi;;;8:45;',
    '13.03.2024;glue;straight;Kofi;;;-3;',
    '13.03.2024;glue;straight;Kofi;;;8,5;;extra',
    '31.02.2024;glue;straight;Kofi;;;8,5;',
    '13.03.2024;;straight;Kofi;;;8,5;',
    '13.03.2024;check;straight;Kofi;;;4 min 30;',
    '13.03.2024;check;straight;Kofi;07:00;;;',
    '13.03.2024;check;"straight";Kofi;;;"4,75";"said ""fine"" twice"',
    ';;;;;;;',
  ].join('\r\n');

describe('a messy list of times', () => {
  const result = read(MESSY);

  it('finds the delimiter, the title, the header and the blank rows', () => {
    expect(result.table.delimiter).toBe(';');
    expect(result.table.above).toEqual([{ row: 1, text: 'Chair works, stopwatch study (invented)' }]);
    expect(result.table.header[1]).toBe('Arbeitsgang');
    expect([result.table.length, result.table.blank]).toEqual([12, 1]);
  });

  it('reads what can be read, with the numbers as they are meant', () => {
    expect(
      result.observations.map((one) => [one.row, one.step, one.product, one.person, one.minutes, one.date]),
    ).toEqual([
      [4, 'fit', 'straight', 'orla', 13.5, '2024-03-05'],
      [5, 'fit', 'bent', 'orla', 21.5, '2024-03-05'],
      [6, 'sand', 'straight', 'ines', 25, '2024-03-13'],
      [8, 'glue', 'straight', 'Kofi', 8.75, '2024-03-13'],
      [13, 'check', 'straight', 'Kofi', 4.5, '2024-03-13'],
      [15, 'check', 'straight', 'Kofi', 4.75, '2024-03-13'],
    ]);
    expect(result.overMidnight).toBe(1);
  });

  it('lists every other row with the reason', () => {
    expect(result.unread.map((one) => [one.row, one.why])).toEqual([
      [7, 'no step is called “Sandd”; the nearest is “sand”'],
      [9, '“-3” is less than nothing'],
      [10, 'it has 9 cells where the header has 8 (a decimal comma without quotation marks?)'],
      [11, '“31.02.2024” is no day of the calendar'],
      [12, 'no step given'],
      [14, 'a start and no end'],
    ]);
    expect(result.ambiguous).toEqual([]);
    expect(result.unknown).toContainEqual({ role: 'step', text: 'Sandd', rows: 1, nearest: 'sand' });
  });

  it('takes a correction of a name', () => {
    const corrected = read(MESSY, { steps: { Sandd: 'sand' } });
    expect(corrected.observations.find((one) => one.row === 7)).toMatchObject({ step: 'sand', minutes: 24 });
  });
});

describe('other shapes of list', () => {
  it('reads a column for each step, and names the cell that is no time', () => {
    const result = read(
      'piece,model,Dry fit (min),Glue and clamp,sand\n1,bent,20,9.5,\n2,straight,14.25,x,22\n3,straight,,,\n',
    );
    expect(result.observations.map((one) => [one.step, one.minutes])).toEqual([
      ['fit', 20],
      ['glue', 9.5],
      ['fit', 14.25],
      ['sand', 22],
    ]);
    expect(result.unread.map((one) => [one.row, one.why])).toEqual([
      [3, '“x” is not a length of time'],
      [4, 'no time in any of the steps’ columns'],
    ]);
  });

  it('reads a list without a header by what stands in it', () => {
    const result = read('sand\tOrla\t22.5\nfit\tInés\t14\n');
    expect(result.table.hasHeader).toBe(false);
    expect(result.observations.map((one) => [one.step, one.person, one.minutes])).toEqual([
      ['sand', 'orla', 22.5],
      ['fit', 'ines', 14],
    ]);
  });

  it('takes seconds from the column name, and a title for the step', () => {
    const result = read('Stopwatch study: sand\nwho,time (s)\nOrla,1350\n');
    expect(result.observations).toMatchObject([{ step: 'sand', person: 'orla', minutes: 22.5 }]);
  });

  it('asks where day and month cannot be told apart, and does as told', () => {
    const text = 'step,date,minutes\nsand,3/5/2024,20\nfit,4/6/2024,12\n';
    expect(read(text).ambiguous).toMatchObject([
      { what: 'date order', assumed: 'day first', example: '3/5/2024' },
    ]);
    expect(read(text).observations[0]!.date).toBe('2024-05-03');
    expect(read(text, { dateOrder: 'month first' }).observations[0]!.date).toBe('2024-03-05');
    expect(read(text + 'fit,4/16/2024,12\n').observations[0]!.date).toBe('2024-03-05');
    expect(read(text + 'fit,4/16/2024,12\n').ambiguous).toEqual([]);
  });

  it('asks whether 1:05 is minutes and seconds', () => {
    expect(read('step,time\nsand,1:05\nfit,0:50\n').ambiguous).toMatchObject([
      { what: 'colon', assumed: 'mm:ss' },
    ]);
    expect(read('step,time\nsand,21:05\nfit,0:50\n').ambiguous).toEqual([]);
  });

  it('does not take an afternoon on a 12-hour dial for a night’s work', () => {
    const result = read('step,from,to\nfit,12:50,1:05\n');
    expect(result.unread[0]!.why).toContain('12-hour clock');
  });

  it('loses no row to a quotation mark that is never closed', () => {
    const result = read('step,minutes,note\nsand,22,"it said\nfit,14,\nglue,9,\n');
    expect(result.observations.map((one) => one.step)).toEqual(['sand', 'fit', 'glue']);
    expect(result.table.notes[0]).toContain('never closed');
  });

  it('obeys a first line that names the delimiter, and counts rows as the spreadsheet does', () => {
    const result = read('sep=|\nstep|minutes\nsand|x\n');
    expect(result.unread[0]).toEqual({ row: 3, why: '“x” is not a length of time', text: 'sand| x' });
  });
});

describe('whatever comes in', () => {
  const piece = fc.oneof(
    fc.constantFrom(
      'sand',
      'fit',
      'Glue and clamp',
      'Orla',
      'bent',
      '12,5',
      '12.5',
      '12:30',
      '06:00',
      '6:05 pm',
      '2024-03-05',
      '3/5/2024',
      '-1',
      '',
      '"',
      ';',
      ',',
      '\t',
    ),
    fc.string({ maxLength: 12 }),
    fc.string({ unit: 'binary', maxLength: 6 }),
  );
  it('never throws, and every row of data is an observation or unread', () => {
    holds(
      fc.property(
        fc.array(fc.array(piece, { maxLength: 6 }), { maxLength: 12 }),
        fc.constantFrom(',', ';', '\t'),
        fc.boolean(),
        (rows, joint, header) => {
          const text = [
            ...(header ? [['step', 'who', 'minutes', 'from', 'to', 'date'].join(joint)] : []),
            ...rows.map((row) => row.join(joint)),
          ].join('\n');
          const result = read(text);
          const seen = new Set([...result.observations, ...result.unread].map((one) => one.row));
          expect([...seen].sort((a, b) => a - b)).toEqual([...result.table.rowNumbers]);
          for (const one of result.observations) expect(one.minutes > 0 && one.minutes <= 1440).toBe(true);
        },
      ),
      { numRuns: 500, seed: 7 },
    );
  });

  it('counts every line of a plain text as data, a title, the header or blank', () => {
    const plain = fc.stringMatching(/^[a-z0-9 ,.;:-]{0,20}$/);
    holds(
      fc.property(fc.array(plain, { minLength: 1, maxLength: 12 }), (lines) => {
        const table = readTable(lines.join('\n'));
        const blankAbove =
          lines.slice(0, table.rowNumbers[0] ?? lines.length).length -
          table.above.length -
          Number(table.hasHeader) -
          (table.length > 0 ? 1 : 0);
        expect(
          table.length + table.above.length + Number(table.hasHeader) + table.blank,
        ).toBeGreaterThanOrEqual(lines.length - blankAbove);
        expect(table.length + table.above.length + Number(table.hasHeader) + table.blank).toBeLessThanOrEqual(
          lines.length,
        );
      }),
      { numRuns: 300, seed: 8 },
    );
  });

  it('reads a million rows, or says of each why not', () => {
    const rows = ['step;product;who;minutes;date'];
    for (let row = 0; row < 1_000_000; row += 1)
      rows.push(
        `${row % 2 ? 'sand' : 'fit'};bent;Orla;${8 + (row % 700) / 100};13.03.2024`.replace('.', ','),
      );
    const text = rows.join('\n');
    const result = read(text);
    expect(result.observations.length + result.unread.length).toBe(1_000_000);
  });
});
