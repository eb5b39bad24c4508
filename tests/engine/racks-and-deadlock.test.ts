/** Racks of no slot, full racks, deadlock and the out-rack, worked out by hand. */
import { describe, expect, test } from 'vitest';
import { eventTable, type Sketch } from '../support/event-table.ts';

/** Small enough never to come up in these few draws, so that the way back exists. */
const HARDLY_EVER = 0.001;

describe('a rack of no slot', () => {
  const handOver: Sketch = {
    steps: { fit: { time: 4 }, check: { time: 6, rack: 0 } },
    people: { fay: { covers: ['fit'] }, cal: { covers: ['check'] } },
    intake: { kind: 'at start', units: 3 },
  };

  test('keeps a fitted unit on the fit bench until its check begins', () => {
    expect(eventTable(handOver, ['start', 'finish', 'good'])).toEqual([
      '0 start 0 fit fay',
      '4 finish 0 fit on',
      '4 start 0 check cal',
      '4 start 1 fit fay',
      '8 finish 1 fit on',
      '10 finish 0 check on',
      '10 good 0',
      '10 start 1 check cal',
      '10 start 2 fit fay',
      '14 finish 2 fit on',
      '16 finish 1 check on',
      '16 good 1',
      '16 start 2 check cal',
      '22 finish 2 check on',
      '22 good 2',
    ]);
  });

  test('leaves the fitter with nowhere to put it, then with no unit', () => {
    expect(eventTable(handOver, ['fay'])).toEqual([
      '0 fay at fit',
      '8 fay nowhere',
      '10 fay at fit',
      '14 fay no unit',
      '510 fay gone',
    ]);
  });

  test('lets an arrival in only if it can start at that instant, and sends it elsewhere where the intake says so', () => {
    const sketch: Sketch = {
      steps: { fit: { time: 6, rack: 0 } },
      people: { fay: { covers: ['fit'] } },
      intake: { kind: 'beat', every: 4, units: 5, whenFull: 'divert' },
    };
    expect(eventTable(sketch, ['start', 'divert', 'good'])).toEqual([
      '0 start 0 fit fay',
      '4 divert 1',
      '6 good 0',
      '8 start 2 fit fay',
      '12 divert 3',
      '14 good 2',
      '16 start 4 fit fay',
      '22 good 4',
    ]);
  });

  test('keeps arrivals outside until they can start where the intake holds them', () => {
    const sketch: Sketch = {
      steps: { fit: { time: 6, rack: 0 } },
      people: { fay: { covers: ['fit'] } },
      intake: { kind: 'beat', every: 4, units: 3 },
    };
    expect(eventTable(sketch, ['start', 'good'])).toEqual([
      '0 start 0 fit fay',
      '6 good 0',
      '6 start 1 fit fay',
      '12 good 1',
      '12 start 2 fit fay',
      '18 good 2',
    ]);
  });
});

describe('a full rack', () => {
  test('gives a slot to the unit blocked longest', () => {
    const sketch: Sketch = {
      steps: { fit: { time: 2, benches: 2 }, check: { time: 10, rack: 1 } },
      people: {
        fay: { covers: ['fit'] },
        gus: { covers: ['fit'], skills: { fit: { level: 3, factor: 1.5 } } },
        cal: { covers: ['check'] },
      },
      intake: { kind: 'at start', units: 5 },
    };
    // Fay ends at 2, 4, Gus at 3, 6: unit 0 is checked from 2, unit 1 takes the slot at 3, unit 2 is blocked
    // at 4, unit 3 at 6.
    expect(
      eventTable(sketch, ['start', 'join', 'finish']).filter((line) => !/ join \d fit/.test(line)),
    ).toEqual([
      '0 start 0 fit fay',
      '0 start 1 fit gus',
      '2 finish 0 fit on',
      '2 join 0 check',
      '2 start 2 fit fay',
      '2 start 0 check cal',
      '3 finish 1 fit on',
      '3 join 1 check',
      '3 start 3 fit gus',
      '4 finish 2 fit on',
      '6 finish 3 fit on',
      '12 finish 0 check on',
      '12 start 1 check cal',
      '12 join 2 check',
      '12 start 4 fit fay',
      '14 finish 4 fit on',
      '22 finish 1 check on',
      '22 start 2 check cal',
      '22 join 3 check',
      '32 finish 2 check on',
      '32 start 3 check cal',
      '32 join 4 check',
      '42 finish 3 check on',
      '42 start 4 check cal',
      '52 finish 4 check on',
    ]);
  });
});

describe('blocked units that wait for each other in a circle', () => {
  test('change places: a check that sends back into a full sanding rack while the sander cannot reach a full check rack', () => {
    const sketch: Sketch = {
      steps: {
        fit: { time: 1 },
        sand: { time: 5, rack: 1 },
        check: { time: 4, rack: 1, rework: [{ to: 'sand', percent: HARDLY_EVER }] },
      },
      people: { sue: { covers: ['sand'] }, cal: { covers: ['check', 'fit'] } },
      intake: { kind: 'at start', units: 0 },
      carryOver: [
        { at: 'check', state: 'blocked', to: 'sand' },
        { at: 'sand', state: 'blocked' },
        { at: 'sand' },
        { at: 'check' },
      ],
    };
    expect(eventTable(sketch, ['change', 'join', 'start', 'finish', 'good'])).toEqual([
      '0 join 2 sand',
      '0 join 3 check',
      '0 join 0 sand',
      '0 join 1 check',
      '0 change places 2',
      '0 start 0 sand sue',
      '0 start 1 check cal',
      '4 finish 1 check on',
      '4 good 1',
      '4 start 3 check cal',
      '5 finish 0 sand on',
      '5 join 0 check',
      '5 start 2 sand sue',
      '8 finish 3 check on',
      '8 good 3',
      '8 start 0 check cal',
      '10 finish 2 sand on',
      '10 join 2 check',
      '12 finish 0 check on',
      '12 good 0',
      '12 start 2 check cal',
      '16 finish 2 check on',
      '16 good 2',
    ]);
  });

  test('a circle of one: a piece sent back to its own step steps off its bench into the full rack', () => {
    const sketch: Sketch = {
      steps: { fit: { time: 6, rack: 1, rework: [{ to: 'fit', percent: HARDLY_EVER }] } },
      people: { fay: { covers: ['fit'] } },
      intake: { kind: 'at start', units: 0 },
      carryOver: [{ at: 'fit' }, { at: 'fit', state: 'blocked', to: 'fit' }],
    };
    expect(eventTable(sketch, ['change', 'join', 'start', 'good'])).toEqual([
      '0 join 0 fit',
      '0 join 1 fit',
      '0 change places 1',
      '0 start 0 fit fay',
      '6 good 0',
      '6 start 1 fit fay',
      '12 good 1',
    ]);
  });

  test('also where a cure waits on the bench of the step before for a place that a cured unit holds', () => {
    // Unit 0 cures on the only jig for want of the place; unit 1 has cured in the place and needs the jig.
    const sketch: Sketch = {
      steps: {
        glue: { time: 3, benches: 0, uses: ['jig'] },
        cure: { kind: 'wait', time: 10, uses: ['place'] },
        unclamp: { time: 2, benches: 0, uses: ['jig'] },
      },
      gear: { jig: { count: 1 }, place: { count: 1 } },
      people: { ana: { covers: ['glue', 'unclamp'] } },
      intake: { kind: 'at start', units: 1 },
      carryOver: [{ at: 'cure', state: 'curing', minutes: 5 }],
    };
    expect(eventTable(sketch, ['start', 'finish', 'cured', 'change', 'good'])).toEqual([
      '0 start 1 glue ana',
      '3 finish 1 glue on',
      '5 cured 0 cure on',
      '5 change places 2',
      '5 start 0 unclamp ana',
      '7 finish 0 unclamp on',
      '7 good 0',
      '13 cured 1 cure on',
      '13 start 1 unclamp ana',
      '15 finish 1 unclamp on',
      '15 good 1',
    ]);
  });
});

describe('the out-rack', () => {
  test('blocks finished units at their last step while it is away', () => {
    const sketch: Sketch = {
      steps: { fit: { time: 5 } },
      people: { fay: { covers: ['fit'] } },
      intake: { kind: 'at start', units: 4 },
      outRack: { size: 2, back: 10 },
    };
    expect(eventTable(sketch, ['start', 'finish', 'good', 'rack', 'fay'])).toEqual([
      '0 start 0 fit fay',
      '0 fay at fit',
      '5 finish 0 fit on',
      '5 good 0',
      '5 start 1 fit fay',
      '10 finish 1 fit on',
      '10 good 1',
      '10 rack sent',
      '10 start 2 fit fay',
      '15 finish 2 fit on',
      '15 fay nowhere',
      '20 good 2',
      '20 start 3 fit fay',
      '20 fay at fit',
      '25 finish 3 fit on',
      '25 good 3',
      '25 rack sent',
      '25 fay no unit',
      '510 fay gone',
    ]);
  });
});
