/** Breaks, times away, whole pieces and pieces for two, worked out by hand. */
import { describe, expect, test } from 'vitest';
import { eventTable, type Sketch } from '../support/event-table.ts';

const breaks = (...list: [from: string, minutes: number][]): { from: string; minutes: number }[] =>
  list.map(([from, minutes]) => ({ from, minutes }));

/** One person, one step, units at the start; until 08:00. */
const one = (step: Sketch['steps'][string], more: Partial<Sketch> & { shift?: Sketch['shift'] }): Sketch => ({
  steps: { glue: step },
  people: { ana: { covers: ['glue'] } },
  intake: { kind: 'at start', units: 4 },
  ...more,
  shift: { end: '08:00', ...more.shift },
});

describe('a break', () => {
  test('begins on time at a piece that can be put down, which is taken up again first', () => {
    const sketch = one({ time: 30 }, { shift: { breaks: breaks(['06:10', 10], ['06:35', 5]) } });
    expect(eventTable(sketch, ['start', 'put', 'resume', 'finish', 'ana']).slice(0, 12)).toEqual([
      '0 start 0 glue ana',
      '0 ana at glue',
      '10 put down 0 glue',
      '10 ana break',
      '20 resume 0 glue ana',
      '20 ana at glue',
      '35 put down 0 glue',
      '35 ana break',
      '40 resume 0 glue ana',
      '40 ana at glue',
      '45 finish 0 glue on',
      '45 start 1 glue ana',
    ]);
  });

  test('waits for a whole piece, is taken in full, and one that falls inside it follows straight after', () => {
    const sketch = one(
      { time: 30, whole: true },
      {
        shift: { breaks: breaks(['06:10', 10], ['06:35', 5]) },
        carryOver: [{ at: 'glue', state: 'in hand', person: 'ana' }],
      },
    );
    // Late break 30-40, the one due at 35 then 40-45. Then 45-75, 75-105; another 30 would end after 08:00.
    expect(eventTable(sketch, ['start', 'resume', 'finish', 'ana'])).toEqual([
      '0 resume 0 glue ana',
      '0 ana at glue',
      '30 finish 0 glue on',
      '30 ana break',
      '45 start 1 glue ana',
      '45 ana at glue',
      '75 finish 1 glue on',
      '75 start 2 glue ana',
      '105 finish 2 glue on',
      '105 ana no fit',
      '120 ana gone',
    ]);
  });

  test('keeps a whole piece from beginning that would not be over, but not one that ends exactly then', () => {
    const gate = (time: number): string[] =>
      eventTable(one({ time, whole: true }, { shift: { breaks: breaks(['06:20', 10]) } }), [
        'start',
        'ana',
      ]).slice(0, 6);
    expect(gate(10)).toEqual([
      '0 start 0 glue ana',
      '0 ana at glue',
      '10 start 1 glue ana',
      '20 ana break',
      '30 start 2 glue ana',
      '30 ana at glue',
    ]);
    expect(gate(11)).toEqual([
      '0 start 0 glue ana',
      '0 ana at glue',
      '11 ana no fit',
      '20 ana break',
      '30 start 1 glue ana',
      '30 ana at glue',
    ]);
  });

  test('as long as the cure ends with it, and the cured piece is there when the hands come back', () => {
    const sketch: Sketch = {
      steps: {
        glue: { time: 5, whole: true, takes: [{ gear: 'clamp', until: 'unclamp' }] },
        cure: { kind: 'wait', time: 30 },
        unclamp: { time: 3 },
      },
      gear: { clamp: { count: 1 } },
      people: { ana: { covers: ['glue', 'unclamp'] } },
      shift: { breaks: breaks(['06:05', 30]) },
      intake: { kind: 'at start', units: 2 },
    };
    // Preference is glue, but the only clamp set is not free.
    expect(eventTable(sketch, ['start', 'finish', 'cured', 'ana']).slice(0, 9)).toEqual([
      '0 start 0 glue ana',
      '0 ana at glue',
      '5 finish 0 glue on',
      '5 ana break',
      '35 cured 0 cure on',
      '35 start 0 unclamp ana',
      '35 ana at unclamp',
      '38 finish 0 unclamp on',
      '38 start 1 glue ana',
    ]);
  });
});

describe('a time away', () => {
  test('keeps its scheduled end when a whole piece makes its beginning late', () => {
    const sketch = one(
      { time: 30, whole: true },
      {
        people: { ana: { covers: ['glue'], away: [{ from: '06:10', to: '06:50' }] } },
        carryOver: [{ at: 'glue', state: 'in hand', person: 'ana' }],
      },
    );
    expect(eventTable(sketch, ['ana']).slice(0, 3)).toEqual([
      '0 ana at glue',
      '30 ana away',
      '50 ana at glue',
    ]);
  });

  test('is gone when a late break before it ends after it', () => {
    const sketch = one(
      { time: 30, whole: true },
      {
        people: {
          ana: { covers: ['glue'], breaks: breaks(['06:10', 10]), away: [{ from: '06:20', to: '06:35' }] },
        },
        carryOver: [{ at: 'glue', state: 'in hand', person: 'ana' }],
      },
    );
    expect(eventTable(sketch, ['ana']).slice(0, 3)).toEqual([
      '0 ana at glue',
      '30 ana break',
      '40 ana at glue',
    ]);
  });
});

describe('somebody late', () => {
  test('joins the rest of a break that has begun', () => {
    const sketch = one(
      { time: 10 },
      {
        people: { ana: { covers: ['glue'], attendance: { late: 25 } } },
        shift: { breaks: breaks(['06:20', 10]) },
      },
    );
    expect(eventTable(sketch, ['start', 'ana']).slice(0, 3)).toEqual([
      '25 ana break',
      '30 start 0 glue ana',
      '30 ana at glue',
    ]);
  });
});

describe('a step with a last start', () => {
  test('begins exactly then and not after', () => {
    const sketch = one({ time: 10, lastStart: '06:20' }, {});
    expect(eventTable(sketch, ['start', 'ana'])).toEqual([
      '0 start 0 glue ana',
      '0 ana at glue',
      '10 start 1 glue ana',
      '20 start 2 glue ana',
      '30 ana no fit',
      '120 ana gone',
    ]);
  });
});

describe('a piece for two', () => {
  const lift: Sketch = {
    steps: { lift: { time: 6, people: 2 }, sand: { time: 4 } },
    people: { ana: { covers: ['lift'] }, bo: { covers: ['sand', 'lift'], breaks: breaks(['06:08', 4]) } },
    intake: { kind: 'at start', units: 2 },
  };

  test('takes the first free person besides the one who was asked, and waits for both after a break', () => {
    expect(eventTable(lift, ['start', 'put', 'resume', 'finish', 'ana', 'bo'])).toEqual([
      '0 start 0 lift ana+bo',
      '0 ana at lift',
      '0 bo at lift',
      '6 finish 0 lift on',
      '6 start 1 lift ana+bo',
      '8 put down 1 lift',
      '8 ana waits for partner',
      '8 bo break',
      '12 resume 1 lift ana',
      '12 ana at lift',
      '12 bo at lift',
      '16 finish 1 lift on',
      '16 start 0 sand bo',
      '16 ana no unit',
      '16 bo at sand',
      '20 finish 0 sand on',
      '20 start 1 sand bo',
      '24 finish 1 sand on',
      '24 bo no unit',
      '510 ana gone',
      '510 bo gone',
    ]);
  });

  test('goes at the pace of the slower', () => {
    const sketch: Sketch = {
      ...lift,
      people: { ana: { covers: ['lift'] }, bo: { covers: ['sand', 'lift'], skills: { sand: 3, lift: 2 } } },
    };
    // Level 2 takes 1.25 times as long: 7.5 minutes for the pair.
    expect(eventTable(sketch, ['start', 'finish']).slice(0, 3)).toEqual([
      '0 start 0 lift ana+bo',
      '7.5 finish 0 lift on',
      '7.5 start 1 lift ana+bo',
    ]);
  });

  test('leaves one alone without help', () => {
    const sketch: Sketch = {
      ...lift,
      people: {
        ana: { covers: ['lift'] },
        bo: { covers: ['sand', 'lift'], away: [{ from: '06:00', to: '06:30' }] },
      },
    };
    expect(eventTable(sketch, ['ana', 'start']).slice(0, 3)).toEqual([
      '0 ana no help',
      '30 start 0 lift ana+bo',
      '30 ana at lift',
    ]);
  });
});

describe('the rule of a person', () => {
  const two = (rule: 'in order' | 'oldest'): string[] =>
    eventTable(
      {
        steps: { fit: { time: 5, benches: 0 }, sand: { time: 5, benches: 0 } },
        people: { ana: { covers: ['sand', 'fit'], rule } },
        intake: { kind: 'at start', units: 3 },
      },
      ['start'],
    );

  test('in order takes the first of their steps that can begin', () => {
    expect(two('in order')).toEqual([
      '0 start 0 fit ana',
      '5 start 0 sand ana',
      '10 start 1 fit ana',
      '15 start 1 sand ana',
      '20 start 2 fit ana',
      '25 start 2 sand ana',
    ]);
  });

  test('oldest takes the piece that has waited longest in its line', () => {
    expect(two('oldest')).toEqual([
      '0 start 0 fit ana',
      '5 start 1 fit ana',
      '10 start 2 fit ana',
      '15 start 0 sand ana',
      '20 start 1 sand ana',
      '25 start 2 sand ana',
    ]);
  });
});

describe('a change of cover', () => {
  test('lets a piece in hand be finished by its person', () => {
    const sketch: Sketch = {
      steps: { fit: { time: 8 }, sand: { time: 8 } },
      people: { ana: { covers: ['fit'], changes: [{ from: '06:20', covers: ['sand'] }] } },
      intake: { kind: 'at start', units: 4 },
    };
    expect(eventTable(sketch, ['start', 'ana']).slice(0, 6)).toEqual([
      '0 start 0 fit ana',
      '0 ana at fit',
      '8 start 1 fit ana',
      '16 start 2 fit ana',
      '24 start 0 sand ana',
      '24 ana at sand',
    ]);
  });
});
