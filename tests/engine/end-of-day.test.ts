/** The end of the day: pieces in hand, tidying up, overtime of every policy; worked out by hand. */
import { describe, expect, test } from 'vitest';
import { eventTable, type Sketch } from '../support/event-table.ts';

type Shift = NonNullable<Sketch['shift']>;

/**
 * Fay fits in 10, Sue sands in 25, four units, 06:00 to 07:00: sanding 10-35, 35-60, and two more of 25 each.
 */
const hour = (shift: Shift, sand: Partial<Sketch['steps'][string]> = {}): Sketch => ({
  steps: { fit: { time: 10 }, sand: { time: 25, ...sand } },
  people: { fay: { covers: ['fit'] }, sue: { covers: ['sand'] } },
  intake: { kind: 'at start', units: 4 },
  shift: { end: '07:00', ...shift },
});

const SUE = ['sue', 'good', 'put', 'target', 'end'];

describe('without overtime', () => {
  const late = (shift: Shift, sand: Partial<Sketch['steps'][string]> = {}): string[] =>
    eventTable(
      { ...hour(shift, sand), intake: { kind: 'list', arrivals: [{ at: '06:05', units: 4 }] } },
      SUE,
    );

  test('a piece in hand at the end is finished, and counts in this shift', () => {
    // Fitted at 15, 25, …; sanded 15-40, 40-65.
    expect(late({})).toEqual([
      '0 sue no unit',
      '15 sue at sand',
      '40 good 0',
      '65 good 1',
      '65 sue gone',
      '65 end',
    ]);
  });

  test('a piece that can be put down is, where the shift says so', () => {
    expect(late({ atEnd: 'put down' })).toEqual([
      '0 sue no unit',
      '15 sue at sand',
      '40 good 0',
      '60 put down 1 sand',
      '60 sue gone',
      '60 end',
    ]);
  });

  test('a whole piece that would not be over at the end is not begun', () => {
    expect(late({ atEnd: 'put down' }, { whole: true })).toEqual([
      '0 sue no unit',
      '15 sue at sand',
      '40 good 0',
      '40 sue no fit',
      '60 sue gone',
      '60 end',
    ]);
  });

  test('nothing begins in the time for tidying up', () => {
    expect(eventTable(hour({ tidyUp: 25 }), SUE)).toEqual([
      '0 sue no unit',
      '10 sue at sand',
      '35 good 0',
      '35 sue tidies',
      '60 sue gone',
      '60 end',
    ]);
    expect(eventTable(hour({ tidyUp: 24 }), SUE)).toEqual([
      '0 sue no unit',
      '10 sue at sand',
      '35 good 0',
      '60 good 1',
      '60 sue gone',
      '60 end',
    ]);
  });

  test('tidying up begins on its minute for somebody without work', () => {
    expect(eventTable(hour({ tidyUp: 7 }), ['fay'])).toEqual([
      '0 fay at fit',
      '40 fay no unit',
      '53 fay tidies',
      '60 fay gone',
    ]);
  });

  test('a break that is owed lapses with the end, and is reported', () => {
    const sketch: Sketch = {
      ...hour({ breaks: [{ from: '06:50', minutes: 10 }] }, { whole: true }),
      carryOver: [
        { at: 'sand', state: 'in hand', person: 'sue' },
        { at: 'sand', state: 'waiting' },
      ],
      steps: { fit: { time: 10 }, sand: { time: 70, whole: true, plannedAt: 'mean' } },
      shift: {
        end: '07:00',
        breaks: [{ from: '06:50', minutes: 10 }],
        overtime: { until: 'empty', cap: 70 },
      },
    };
    expect(eventTable(sketch, ['sue', 'lapsed', 'good'])).toEqual([
      '0 sue at sand',
      '60 lapsed sue 10',
      '70 good 0',
      '70 sue gone',
    ]);
  });

  test('somebody on a break at their end goes, and who covers the step takes up their piece', () => {
    const sketch: Sketch = {
      ...hour({}),
      people: {
        sue: { covers: ['sand'], to: '06:40', breaks: [{ from: '06:30', minutes: 20 }] },
        fay: { covers: ['fit', 'sand'] },
      },
    };
    // Sue sands unit 0 from 10 to 30 and puts it down with 5 left. Fay fits until 40; the piece is nobody's
    // at 40.
    expect(eventTable(sketch, ['sue', 'fay', 'put', 'resume', 'lapsed']).slice(0, 9)).toEqual([
      '0 fay at fit',
      '0 sue no unit',
      '10 sue at sand',
      '30 put down 0 sand',
      '30 sue break',
      '40 lapsed sue 10',
      '40 resume 0 sand fay',
      '40 fay at sand',
      '40 sue gone',
    ]);
  });
});

describe('overtime until the cell is empty', () => {
  test('keeps those whom something can reach, each until nothing can', () => {
    expect(eventTable(hour({ overtime: { until: 'empty', cap: 60 } }), [...SUE, 'fay'])).toEqual([
      '0 fay at fit',
      '0 sue no unit',
      '10 sue at sand',
      '35 good 0',
      '40 fay no unit',
      '60 good 1',
      '60 fay gone',
      '85 good 2',
      '110 good 3',
      '110 sue gone',
      '110 end',
    ]);
  });

  test('lets nothing begin that is planned to end after the cap, tidying up included', () => {
    // The last piece would be sanded from 85 to 110: 50 minutes after the end.
    expect(eventTable(hour({ overtime: { until: 'empty', cap: 49 } }), SUE).slice(-3)).toEqual([
      '85 good 2',
      '85 sue gone',
      '85 end',
    ]);
    expect(eventTable(hour({ overtime: { until: 'empty', cap: 50 } }), SUE).slice(-3)).toEqual([
      '110 good 3',
      '110 sue gone',
      '110 end',
    ]);
    expect(eventTable(hour({ tidyUp: 5, overtime: { until: 'empty', cap: 54 } }), SUE).slice(-4)).toEqual([
      '85 good 2',
      '85 sue tidies',
      '90 sue gone',
      '90 end',
    ]);
    expect(eventTable(hour({ tidyUp: 5, overtime: { until: 'empty', cap: 55 } }), SUE).slice(-2)).toEqual([
      '115 sue gone',
      '115 end',
    ]);
  });

  test('puts down at the cap what can be, where the shift says so', () => {
    // Begun before the overtime, with a cap shorter than what is left of it.
    const sketch: Sketch = {
      ...hour({ atEnd: 'put down', overtime: { until: 'empty', cap: 10 } }),
      intake: { kind: 'list', arrivals: [{ at: '06:45', units: 1 }] },
    };
    // Fitted 45-55, sanded from 55 with 25 to go.
    expect(eventTable(sketch, SUE).slice(-3)).toEqual(['70 put down 0 sand', '70 sue gone', '70 end']);
  });

  test('lets no unit begin its first step after the end', () => {
    const sketch: Sketch = {
      ...hour({ overtime: { until: 'empty', cap: 60 } }),
      intake: { kind: 'at start', units: 9 },
    };
    // The sixth is fitted from 50 to 60; a seventh would begin at the end.
    expect(
      eventTable(sketch, ['start', 'fay'])
        .filter((line) => /fit|fay/.test(line))
        .slice(-2),
    ).toEqual(['50 start 5 fit fay', '60 fay gone']);
  });

  test('tidying up follows the last piece, paid', () => {
    expect(
      eventTable(hour({ tidyUp: 5, overtime: { until: 'empty', cap: 60 } }), [...SUE, 'fay']).slice(-6),
    ).toEqual(['60 fay gone', '85 good 2', '110 good 3', '110 sue tidies', '115 sue gone', '115 end']);
  });

  test('holds only for the people named, and those who may be asked', () => {
    const sketch = hour({ overtime: { until: 'empty', cap: 60, who: ['fay'] } });
    expect(eventTable(sketch, SUE).slice(-3)).toEqual(['60 good 1', '60 sue gone', '60 end']);
    const asked: Sketch = {
      ...hour({ overtime: { until: 'empty', cap: 60 } }),
      people: { fay: { covers: ['fit'] }, sue: { covers: ['sand'], overtime: false } },
    };
    expect(eventTable(asked, SUE).slice(-3)).toEqual(['60 good 1', '60 sue gone', '60 end']);
  });

  test('the work of others on the way counts with its mean', () => {
    const cell = (cap: number): string[] =>
      eventTable(
        {
          steps: { fit: { time: 10 }, sand: { time: 25 }, check: { time: 5 } },
          people: { fay: { covers: ['fit'] }, sue: { covers: ['sand'] }, cas: { covers: ['check'] } },
          intake: { kind: 'list', arrivals: [{ at: '06:40', units: 2 }] },
          shift: { end: '07:00', overtime: { until: 'empty', cap } },
        },
        ['cas'],
      );
    // Fitted 40-50 and 50-60; sanded 50-75 and 75-100; checked 75-80 and 100-105. At the end one piece is in
    // hand, and what is left of that nobody knows; the other stands before 25 minutes of sanding.
    expect(cell(29)).toEqual(['0 cas no unit', '75 cas at check', '80 cas gone']);
    expect(cell(45)).toEqual([
      '0 cas no unit',
      '75 cas at check',
      '80 cas no unit',
      '100 cas at check',
      '105 cas gone',
    ]);
  });

  test('somebody waits for a cure that ends before the cap, and not for one that does not', () => {
    const cell = (cap: number): string[] =>
      eventTable(
        {
          steps: { glue: { time: 10 }, cure: { kind: 'wait', time: 30 }, unclamp: { time: 5 } },
          people: { ana: { covers: ['unclamp', 'glue'] } },
          intake: { kind: 'list', arrivals: [{ at: '06:45', units: 1 }] },
          shift: { end: '07:00', overtime: { until: 'empty', cap } },
        },
        ['ana', 'good', 'end'],
      );
    // Glued 45-55, cured at 85.
    expect(cell(29)).toEqual(['0 ana no unit', '45 ana at glue', '55 ana no unit', '60 ana gone', '60 end']);
    expect(cell(30)).toEqual([
      '0 ana no unit',
      '45 ana at glue',
      '55 ana no unit',
      '85 ana at unclamp',
      '90 good 0',
      '90 ana gone',
      '90 end',
    ]);
  });
});

describe('overtime until the target is met', () => {
  test('ends at the instant of the last good unit', () => {
    expect(eventTable(hour({ target: 3, overtime: { until: 'target', cap: 60 } }), SUE)).toEqual([
      '0 sue no unit',
      '10 sue at sand',
      '35 good 0',
      '60 good 1',
      '85 good 2',
      '85 target met',
      '85 sue gone',
      '85 end',
    ]);
  });

  test('is not begun where the target is met before the end, and the ordinary tidying up holds again', () => {
    expect(
      eventTable(hour({ target: 1, tidyUp: 10, overtime: { until: 'target', cap: 60 } }), [...SUE, 'fay']),
    ).toEqual([
      '0 fay at fit',
      '0 sue no unit',
      '10 sue at sand',
      '35 good 0',
      '35 target met',
      '40 fay no unit',
      '50 fay tidies',
      '60 good 1',
      '60 fay gone',
      '60 sue gone',
      '60 end',
    ]);
  });

  test('lets pieces in hand be finished', () => {
    const sketch: Sketch = {
      ...hour({ target: 3, overtime: { until: 'target', cap: 60 } }, { benches: 2 }),
      people: {
        fay: { covers: ['fit'] },
        sue: { covers: ['sand'] },
        tom: { covers: ['sand'], from: '06:30' },
      },
    };
    // Sue sands units 0, 2 and on from 35; Tom unit 1 from 30 to 55, then unit 3 from 55 to 80. The third
    // good unit is Sue's at 60.
    expect(eventTable(sketch, ['good', 'target', 'sue', 'tom', 'end'])).toEqual([
      '0 sue no unit',
      '10 sue at sand',
      '30 tom at sand',
      '35 good 0',
      '55 good 1',
      '60 good 2',
      '60 target met',
      '60 sue gone',
      '80 good 3',
      '80 tom gone',
      '80 end',
    ]);
  });
});
