/** What stands in the cell at the start, holds, and shifts that follow each other; worked out by hand. */
import { describe, expect, test } from 'vitest';
import { HandoverError } from '../../src/engine/handover-error.ts';
import { resolve } from '../../src/scenario/resolve.ts';
import { sampleBeyond, compileTime } from '../../src/duration/compile.ts';
import { counter, PURPOSE, replicationKey, seedKey } from '../../src/random/keys.ts';
import { threefry } from '../../src/random/threefry.ts';
import { dayTable, eventTable, shiftsOfSketch, type Sketch } from '../support/event-table.ts';
import { Rerun, scalar } from '../support/run-cell.ts';

/** Glue 8 whole, cure 30 in a clamp set, unclamp 3, sand 10. */
const glueUp: Sketch = {
  steps: {
    glue: { time: 8, whole: true, takes: [{ gear: 'clamp', until: 'unclamp' }] },
    cure: { kind: 'wait', time: 30 },
    unclamp: { time: 3 },
    sand: { time: 10, benches: 2 },
  },
  gear: { clamp: { count: 3 } },
  people: { ana: { covers: ['unclamp', 'glue'] }, bo: { covers: ['sand'] } },
  intake: { kind: 'at start', units: 0 },
};

describe('carry-over', () => {
  test.each([
    [undefined, 2],
    [['clamp'], 1],
    [['clamp', 'clamp'], 2],
    [[], 0],
  ])('of a kind that is taken twice on the way a piece has as many as the file names: %j', (gear, count) => {
    const sketch: Sketch = {
      steps: {
        bar: { time: 4, takes: [{ gear: 'clamp', until: 'off' }] },
        band: { time: 4, takes: [{ gear: 'clamp', until: 'off' }] },
        off: { time: 3 },
      },
      gear: { clamp: { count: 5 } },
      people: { ana: { covers: ['bar', 'band', 'off'] } },
      intake: { kind: 'at start', units: 0 },
      carryOver: [{ at: 'off', ...(gear === undefined ? {} : { gear }) }],
    };
    const told = eventTable(sketch, ['gear']).filter((line) => line.startsWith('0 gear clamp'));
    expect(new Set(told.map((line) => line.split(' ')[3])).size).toBe(count);
  });

  test('cures for the minutes left, is taken up where it was put down, and waits in its clamps', () => {
    const sketch: Sketch = {
      ...glueUp,
      carryOver: [
        { at: 'cure', state: 'curing', minutes: 7 },
        { at: 'glue', state: 'in hand', person: 'ana', minutes: 3 },
        { at: 'sand', state: 'put down', minutes: 2 },
        { at: 'unclamp' },
      ],
    };
    // Ana glues unit 1 for the 5 minutes left, then unclamps unit 3, which was cured, 5-8, then unit 0, cured
    // at 7, 8-11.
    expect(eventTable(sketch, ['resume', 'start', 'finish', 'cured', 'good'])).toEqual([
      '0 resume 1 glue ana',
      '0 resume 2 sand bo',
      '2 finish 2 sand on',
      '2 good 2',
      '5 finish 1 glue on',
      '5 start 3 unclamp ana',
      '7 cured 0 cure on',
      '8 finish 3 unclamp on',
      '8 start 0 unclamp ana',
      '8 start 3 sand bo',
      '11 finish 0 unclamp on',
      '18 finish 3 sand on',
      '18 good 3',
      '18 start 0 sand bo',
      '28 finish 0 sand on',
      '28 good 0',
      '35 cured 1 cure on',
      '35 start 1 unclamp ana',
      '38 finish 1 unclamp on',
      '38 start 1 sand bo',
      '48 finish 1 sand on',
      '48 good 1',
    ]);
    expect(
      eventTable(sketch, ['gear'])
        .filter((line) => line.includes('clamp '))
        .slice(0, 6),
    ).toEqual([
      '0 gear clamp 0 at cure',
      '0 gear clamp 1 at glue',
      '0 gear clamp 2 before unclamp',
      '5 gear clamp 1 at cure',
      '5 gear clamp 2 at unclamp',
      '7 gear clamp 0 before unclamp',
    ]);
  });

  test('counts as arrived, its lead time from 0 or from the earlier arrival given', () => {
    const sketch: Sketch = {
      ...glueUp,
      carryOver: [
        { at: 'sand', state: 'put down', minutes: 2, arrived: 40 },
        { at: 'sand', state: 'put down', minutes: 6 },
      ],
    };
    const rows = new Rerun(shiftsOfSketch(sketch)).rows(0)[0]!;
    // Bo finishes the first at 2 (arrived at -40), the second at 8 (arrived at 0).
    expect([scalar(rows, 'arrived'), scalar(rows, 'good'), scalar(rows, 'leadMean')]).toEqual([2, 2, 25]);
  });

  test('its time through the cell stands apart from that of what comes in', () => {
    const sketch: Sketch = {
      steps: { sand: { time: 10 } },
      people: { bo: { covers: ['sand'] } },
      intake: { kind: 'at start', units: 2 },
      carryOver: [{ at: 'sand', units: 3 }],
    };
    const rows = new Rerun(shiftsOfSketch(sketch)).rows(0)[0]!;
    // Out at 10, 20, 30 (what stood there), then 40 and 50: (40 + 50) / 2 of the new, 30 of all.
    expect(['newGood', 'newLead', 'leadMean'].map((name) => scalar(rows, name as 'newLead'))).toEqual([
      2, 45, 30,
    ]);
  });

  test('in hand, a drawn time is one of those longer than the minutes already worked', () => {
    const time = { curve: 'exponential', mean: 6 } as const;
    const sketch: Sketch = {
      steps: { fit: { time } },
      people: { fay: { covers: ['fit'] } },
      intake: { kind: 'at start', units: 0 },
      carryOver: [{ at: 'fit', state: 'in hand', person: 'fay', minutes: 9 }],
    };
    const [, ...rest] = eventTable(sketch, ['resume', 'finish']);
    const luck = threefry(
      seedKey(resolve({ format: 1, name: 'x', ...sketch }).seed),
      replicationKey(0),
      0,
      counter(PURPOSE.TASK, 0, 0),
    );
    const left = sampleBeyond(compileTime(time), luck, 9) - 9;
    expect(left).toBeGreaterThan(0);
    expect(Number(rest[0]!.split(' ')[0])).toBeCloseTo(left, 4);
  });

  test('a blocked unit moves after all that waits has its slot', () => {
    const sketch: Sketch = {
      steps: { fit: { time: 4 }, check: { time: 6, rack: 1 } },
      people: { fay: { covers: ['fit'] }, cal: { covers: ['check'] } },
      intake: { kind: 'at start', units: 1 },
      carryOver: [{ at: 'fit', state: 'blocked' }, { at: 'check' }],
    };
    expect(eventTable(sketch, ['join', 'start', 'good'])).toEqual([
      '0 join 1 check',
      '0 join 2 fit',
      '0 start 1 check cal',
      '0 join 0 check',
      '0 start 2 fit fay',
      '6 good 1',
      '6 start 0 check cal',
      '6 join 2 check',
      '12 good 0',
      '12 start 2 check cal',
      '18 good 2',
    ]);
  });
});

describe('a hold', () => {
  test('stands named units aside before a step until its time, in no line and no slot', () => {
    const sketch: Sketch = {
      steps: { fit: { time: 5 }, sand: { time: 5, rack: 1 } },
      people: { fay: { covers: ['fit'] }, sue: { covers: ['sand'] } },
      intake: {
        kind: 'list',
        arrivals: [
          { at: '06:00', name: 'oak' },
          { at: '06:00', units: 2 },
        ],
      },
      holds: [{ before: 'sand', until: '06:30', units: ['oak'] }],
    };
    expect(eventTable(sketch, ['start', 'aside', 'release', 'good'])).toEqual([
      '0 start 0 fit fay',
      '5 aside 0 sand',
      '5 start 1 fit fay',
      '10 start 2 fit fay',
      '10 start 1 sand sue',
      '15 good 1',
      '15 start 2 sand sue',
      '20 good 2',
      '30 release 0 sand',
      '30 start 0 sand sue',
      '35 good 0',
    ]);
  });

  test('released into a full rack, a unit is blocked where no place is taken up', () => {
    const sketch: Sketch = {
      steps: { fit: { time: 5 }, sand: { time: 20, rack: 1 } },
      people: { fay: { covers: ['fit'] }, sue: { covers: ['sand'] } },
      intake: {
        kind: 'list',
        arrivals: [
          { at: '06:00', name: 'oak' },
          { at: '06:00', units: 4 },
        ],
      },
      holds: [{ before: 'sand', until: '06:20', units: ['oak'] }],
    };
    // Sanding 10-30 (unit 1); unit 2 in the slot from 15, unit 3 blocked on the bench from 20, a little
    // before unit 0 is released.
    expect(eventTable(sketch, ['release', 'join', 'start']).filter((line) => !line.includes('fit'))).toEqual([
      '10 join 1 sand',
      '10 start 1 sand sue',
      '15 join 2 sand',
      '20 release 0 sand',
      '30 start 2 sand sue',
      '30 join 3 sand',
      '50 start 3 sand sue',
      '50 join 0 sand',
      '70 start 0 sand sue',
      '70 join 4 sand',
      '90 start 4 sand sue',
    ]);
  });
});

describe('shifts that follow each other', () => {
  test('cures run on overnight, and pieces put down are taken up by whoever covers the step first', () => {
    const sketch: Sketch = {
      ...glueUp,
      steps: { ...glueUp.steps, sand: { time: 40 } },
      gear: { clamp: { count: 1 } },
      intake: { kind: 'list', arrivals: [{ at: '06:45', units: 2 }] },
      carryOver: [{ at: 'sand' }, { at: 'sand' }],
      shift: { end: '07:00', atEnd: 'put down' },
      nextShifts: [{ changes: { intake: { kind: 'at start', arrivals: null, units: 0 } } }],
    };
    const kinds = ['arrive', 'resume', 'start', 'put', 'wait', 'cured', 'finish', 'good', 'ana', 'bo', 'end'];
    expect(dayTable(sketch, kinds)).toEqual([
      [
        '0 arrive 0 piece',
        '0 arrive 1 piece',
        '0 start 0 sand bo',
        '0 ana no unit',
        '0 bo at sand',
        '40 finish 0 sand on',
        '40 good 0',
        '40 start 1 sand bo',
        '45 arrive 2 piece',
        '45 arrive 3 piece',
        '45 start 2 glue ana',
        '45 ana at glue',
        '53 finish 2 glue on',
        '53 wait 2 cure 30',
        '53 ana no unit',
        '60 put down 1 sand',
        '60 ana gone',
        '60 bo gone',
        '60 end',
      ],
      [
        // Unit 2 cured until 07:23 and waits in its clamp; unit 1 has 20 minutes left; unit 3 waits for the
        // clamp set.
        '0 arrive 1 piece',
        '0 arrive 2 piece',
        '0 arrive 3 piece',
        '0 put down 1 sand',
        '0 wait 2 cure 0',
        '0 cured 2 cure on',
        '0 start 2 unclamp ana',
        '0 resume 1 sand bo',
        '0 ana at unclamp',
        '0 bo at sand',
        '3 finish 2 unclamp on',
        '3 start 3 glue ana',
        '3 ana at glue',
        '11 finish 3 glue on',
        '11 wait 3 cure 30',
        '11 ana no unit',
        '20 finish 1 sand on',
        '20 good 1',
        '20 start 2 sand bo',
        '41 cured 3 cure on',
        '41 start 3 unclamp ana',
        '41 ana at unclamp',
        '44 finish 3 unclamp on',
        '44 ana no unit',
        '60 finish 2 sand on',
        '60 good 2',
        '60 ana gone',
        '60 bo gone',
        '60 end',
      ],
    ]);
  });

  test('the night counts in no lead time and in no line', () => {
    const sketch: Sketch = {
      steps: { sand: { time: 40 } },
      people: { bo: { covers: ['sand'] } },
      intake: { kind: 'at start', units: 2 },
      shift: { end: '07:00', atEnd: 'put down' },
      nextShifts: [{ changes: { intake: { units: 0 } } }],
    };
    const [first, second] = new Rerun(shiftsOfSketch(sketch)).rows(0);
    // Unit 0: 40 minutes. Unit 1 waits 40, is sanded for 20, and for 20 more the next day: lead 80, of which
    // 40 in line, on the first day.
    expect([scalar(first!, 'leadMean'), scalar(second!, 'leadMean')]).toEqual([40, 80]);
    // Unit 1 stood there in the second shift: nothing that came in then got through.
    expect([scalar(first!, 'newLead'), scalar(first!, 'newGood')]).toEqual([40, 1]);
    expect([scalar(second!, 'newLead'), scalar(second!, 'newGood')]).toEqual([NaN, 0]);
    expect([first!.row[first!.layout.at.waited], second!.row[second!.layout.at.waited]]).toEqual([40, 0]);
    expect([scalar(first!, 'inside'), scalar(second!, 'arrived'), scalar(second!, 'inside')]).toEqual([
      1, 1, 0,
    ]);
  });

  test('each has its own crew', () => {
    const sketch: Sketch = {
      steps: { sand: { time: 40 } },
      people: { bo: { covers: ['sand'] } },
      intake: { kind: 'at start', units: 1 },
      shift: { end: '06:30', atEnd: 'put down' },
      nextShifts: [
        {
          changes: {
            intake: { units: 0 },
            people: { bo: null, cy: { covers: ['sand'], skills: { sand: 2 } } },
          },
        },
      ],
    };
    // What is left is the time left, whoever takes it up.
    expect(dayTable(sketch, ['start', 'put', 'resume', 'finish'])).toEqual([
      ['0 start 0 sand bo', '30 put down 0 sand'],
      ['0 put down 0 sand', '0 resume 0 sand cy', '10 finish 0 sand on'],
    ]);
  });
});

describe('what a shift finds of the shift before', () => {
  test('a part-filled out-rack has waited the minutes it has waited, and the night is none of them', () => {
    const sketch: Sketch = {
      steps: { sand: { time: 20 } },
      people: { bo: { covers: ['sand'] } },
      intake: { kind: 'at start', units: 2 },
      shift: { end: '07:00' },
      outRack: { size: 3 },
      nextShifts: [{ changes: { intake: { units: 1 } } }],
    };
    const [first, second] = new Rerun(shiftsOfSketch(sketch)).rows(0);
    expect(scalar(first!, 'racksSent')).toBe(0);
    // On the rack at 20, 40, and 20 minutes into the second shift of an hour each: it takes 60 to fill, and
    // the pieces wait 60, 40 and 0.
    expect(scalar(second!, 'racksSent')).toBe(1);
    expect(scalar(second!, 'rackFill')).toBeCloseTo(60, 9);
    expect(scalar(second!, 'rackWait')).toBeCloseTo(100 / 3, 9);
  });

  test('out-racks that only the second shift has are there in it', () => {
    const sketch: Sketch = {
      steps: { sand: { time: 20 } },
      people: { bo: { covers: ['sand'] } },
      intake: { kind: 'at start', units: 1 },
      shift: { end: '07:00' },
      nextShifts: [{ changes: { outRack: { size: 1, racks: 2 } } }],
    };
    const [, second] = new Rerun(shiftsOfSketch(sketch)).rows(0);
    expect([scalar(second!, 'good'), scalar(second!, 'racksSent')]).toEqual([1, 1]);
  });

  test('fewer clamp sets than pieces hold is told, with how many they hold', () => {
    const sketch: Sketch = {
      ...glueUp,
      gear: { clamp: { name: 'Clamp sets', count: 2 } },
      intake: { kind: 'list', arrivals: [{ at: '06:40', units: 2 }] },
      shift: { end: '07:00' },
      nextShifts: [
        {
          name: 'Late',
          changes: { gear: { clamp: { count: 1 } }, intake: { kind: 'at start', arrivals: null, units: 0 } },
        },
      ],
    };
    const run = (): unknown => new Rerun(shiftsOfSketch(sketch)).rows(0);
    expect(run).toThrow(HandoverError);
    expect(run).toThrow(
      'pieces left over by the shift before “Late” hold 2 of “Clamp sets”, but “Late” has only 1 (run 1); give it at least 2, or have fewer pieces stand over',
    );
  });
});
