/** Arrivals, the order of a line, gear out of order, loops without end; worked out by hand. */
import { describe, expect, test } from 'vitest';
import { compile } from '../../src/engine/compile.ts';
import { CellRun, RunawayError } from '../../src/engine/run.ts';
import { SilentRecorder } from '../../src/engine/silent.ts';
import { eventTable, shiftsOfSketch, type Sketch } from '../support/event-table.ts';

const fit = (step: Sketch['steps'][string], more: Partial<Sketch> = {}): Sketch => ({
  steps: { fit: step },
  people: { fay: { covers: ['fit'] } },
  ...more,
});

describe('arrivals', () => {
  test('at a beat come until the end, and late by as much as the intake says', () => {
    const sketch = fit(
      { time: 1 },
      { intake: { kind: 'beat', every: 20, late: 5 }, shift: { end: '07:00' } },
    );
    expect(eventTable(sketch, ['arrive', 'start'])).toEqual([
      '5 arrive 0 piece',
      '5 start 0 fit fay',
      '25 arrive 1 piece',
      '25 start 1 fit fay',
      '45 arrive 2 piece',
      '45 start 2 fit fay',
    ]);
  });

  test('of a list are numbered in order of their times', () => {
    const sketch = fit(
      { time: 1 },
      {
        products: { oak: {}, ash: {} },
        intake: {
          kind: 'list',
          arrivals: [
            { at: '06:30', product: 'oak' },
            { at: '06:10', product: 'ash', units: 2 },
          ],
        },
      },
    );
    expect(eventTable(sketch, ['arrive'])).toEqual(['10 arrive 0 ash', '10 arrive 1 ash', '30 arrive 2 oak']);
  });

  test('one in as one leaves keeps the number inside, carry-over counted', () => {
    const sketch: Sketch = {
      steps: { fit: { time: 5 }, check: { time: 5 } },
      people: { fay: { covers: ['fit'] }, cal: { covers: ['check'] } },
      intake: { kind: 'constant', inside: 3 },
      carryOver: [{ at: 'check' }],
      shift: { end: '06:12' },
    };
    expect(eventTable(sketch, ['arrive', 'start', 'good'])).toEqual([
      '0 arrive 0 piece',
      '0 arrive 1 piece',
      '0 arrive 2 piece',
      '0 start 1 fit fay',
      '0 start 0 check cal',
      '5 good 0',
      '5 arrive 3 piece',
      '5 start 2 fit fay',
      '5 start 1 check cal',
      '10 good 1',
      '10 arrive 4 piece',
      '10 start 3 fit fay',
      '10 start 2 check cal',
      '15 good 2',
      '15 arrive 5 piece',
    ]);
  });
});

describe('the order of a line', () => {
  const line = (order: 'first come' | 'earliest due'): string[] =>
    eventTable(
      fit(
        { time: 5, order },
        {
          intake: {
            kind: 'list',
            arrivals: [
              { at: '06:00' },
              { at: '06:00', due: '08:00' },
              { at: '06:00', due: '07:00' },
              { at: '06:00', rush: true },
            ],
          },
        },
      ),
      ['start'],
    );

  test('is rush first, then first come', () => {
    expect(line('first come')).toEqual([
      '0 start 3 fit fay',
      '5 start 0 fit fay',
      '10 start 1 fit fay',
      '15 start 2 fit fay',
    ]);
  });

  test('or rush first, then earliest due, undated last', () => {
    expect(line('earliest due')).toEqual([
      '0 start 3 fit fay',
      '5 start 2 fit fay',
      '10 start 1 fit fay',
      '15 start 0 fit fay',
    ]);
  });

  test('interrupts nothing in hand for a rush', () => {
    const sketch = fit(
      { time: 5 },
      {
        intake: {
          kind: 'list',
          arrivals: [
            { at: '06:00', units: 3 },
            { at: '06:02', rush: true },
          ],
        },
      },
    );
    expect(eventTable(sketch, ['start'])).toEqual([
      '0 start 0 fit fay',
      '5 start 3 fit fay',
      '10 start 1 fit fay',
      '15 start 2 fit fay',
    ]);
  });

  test('outside a full rack, too, rush comes in first', () => {
    const sketch = fit(
      { time: 5, rack: 1 },
      {
        intake: {
          kind: 'list',
          arrivals: [
            { at: '06:00', units: 4 },
            { at: '06:02', rush: true },
          ],
        },
      },
    );
    // 0 is begun, 1 in the slot; 2, 3 and the rush wait outside. At 5 unit 1 begins and the rush takes its
    // slot.
    expect(eventTable(sketch, ['join', 'start'])).toEqual([
      '0 join 0 fit',
      '0 start 0 fit fay',
      '0 join 1 fit',
      '5 start 1 fit fay',
      '5 join 4 fit',
      '10 start 4 fit fay',
      '10 join 2 fit',
      '15 start 2 fit fay',
      '15 join 3 fit',
      '20 start 3 fit fay',
    ]);
  });
});

describe('gear', () => {
  const jig = (gear: NonNullable<Sketch['gear']>[string]): Sketch =>
    fit({ time: 5, uses: ['jig'] }, { gear: { jig: gear }, intake: { kind: 'at start', units: 3 } });

  test('at a planned time goes out of order when the piece in it is finished', () => {
    expect(
      eventTable(jig({ count: 1, out: [{ from: '06:03', minutes: 10 }] }), [
        'start',
        'finish',
        'fay',
        'gear',
      ]),
    ).toEqual([
      '0 start 0 fit fay',
      '0 fay at fit',
      '0 gear jig 0 at fit',
      '5 finish 0 fit on',
      '5 fay no jig',
      '5 gear jig 0 out of order',
      '15 start 1 fit fay',
      '15 fay at fit',
      '15 gear jig 0 at fit',
      '20 finish 1 fit on',
      '20 start 2 fit fay',
      '25 finish 2 fit on',
      '25 fay no unit',
      '25 gear jig 0 free',
      '510 fay gone',
    ]);
  });

  test('that fails counts the time to its next failure from its return', () => {
    // Fails at 7 with unit 1 in it (5-10), is mended 10-14, holds unit 2 14-19, and fails again at 14 + 7,
    // free.
    expect(
      eventTable(jig({ count: 1, fails: { every: 7, repair: 4 } }), ['start', 'gear']).slice(0, 8),
    ).toEqual([
      '0 start 0 fit fay',
      '0 gear jig 0 at fit',
      '5 start 1 fit fay',
      '10 gear jig 0 out of order',
      '14 start 2 fit fay',
      '14 gear jig 0 at fit',
      '19 gear jig 0 free',
      '21 gear jig 0 out of order',
    ]);
  });

  test('that is free is taken out before one with a piece in it', () => {
    expect(
      eventTable(jig({ count: 2, out: [{ from: '06:03', minutes: 10 }] }), ['start', 'gear']).slice(0, 7),
    ).toEqual([
      '0 start 0 fit fay',
      '0 gear jig 0 at fit',
      '3 gear jig 1 out of order',
      '5 start 1 fit fay',
      '10 start 2 fit fay',
      '13 gear jig 1 free',
      '15 gear jig 0 free',
    ]);
  });

  test('that is free soonest is taken out where all are in use, and a second time out takes another', () => {
    // Gus is twice as fast: his jig 1 is free at 5, Fay's jig 0 at 10. At 4 jig 1 is spoken for already.
    const sketch: Sketch = {
      steps: { fit: { time: 10, uses: ['jig'] } },
      gear: {
        jig: {
          count: 2,
          out: [
            { from: '06:03', minutes: 20 },
            { from: '06:04', minutes: 1 },
          ],
        },
      },
      people: { fay: { covers: ['fit'] }, gus: { covers: ['fit'], skills: { fit: { factor: 0.5 } } } },
      intake: { kind: 'at start', units: 3 },
    };
    expect(eventTable(sketch, ['start', 'gear']).slice(0, 8)).toEqual([
      '0 start 0 fit fay',
      '0 start 1 fit gus',
      '0 gear jig 0 at fit',
      '0 gear jig 1 at fit',
      '5 gear jig 1 out of order',
      '10 gear jig 0 out of order',
      '11 start 2 fit fay',
      '11 gear jig 0 at fit',
    ]);
  });

  test('that goes with a piece is free soonest where the least is left on the way, not in hand', () => {
    // At 6 set 0 has its piece in the cure until 15 and then 5 to take it off; set 1 is in Gus's hands
    // until 7, but 10 of cure and 5 to take it off are still to come: set 0 is free at 20, set 1 at 22.
    const sketch: Sketch = {
      steps: {
        glue: { time: 5, benches: 2, takes: [{ gear: 'clamp', until: 'off' }] },
        cure: { kind: 'wait', time: 10 },
        off: { time: 5 },
      },
      gear: { clamp: { count: 2, out: [{ from: '06:06', minutes: 30 }] } },
      people: {
        fay: { covers: ['glue', 'off'] },
        gus: {
          covers: ['glue', 'off'],
          skills: { glue: { level: 3, factor: 1.4 }, off: { level: 3, factor: 1 } },
        },
      },
      intake: { kind: 'at start', units: 2 },
    };
    const left = (line: string): boolean => line.includes('out of order');
    expect(eventTable(sketch, ['gear']).filter(left)).toEqual(['20 gear clamp 0 out of order']);
    // The other way about: the slow one glues into set 0.
    const turned = { ...sketch, people: { gus: sketch.people!.gus!, fay: sketch.people!.fay! } };
    expect(eventTable(turned, ['gear']).filter(left)).toEqual(['20 gear clamp 1 out of order']);
  });

  test('is freed by a piece that goes back to or before the step that took it, and by scrap', () => {
    const sketch: Sketch = {
      steps: {
        fit: { time: 5 },
        glue: { time: 5, takes: [{ gear: 'clamp', until: 'sand' }] },
        sand: { time: 5, rework: [{ to: 'fit', percent: 50 }], scrap: 49.9 },
      },
      gear: { clamp: { count: 1 } },
      people: { fay: { covers: ['sand', 'glue', 'fit'] } },
      intake: { kind: 'at start', units: 3 },
    };
    const table = eventTable(sketch, ['finish', 'gear']);
    const left = table.filter((line) => /finish \d sand (rework|scrap)/.test(line));
    expect(left.length).toBeGreaterThan(2);
    for (const line of left) {
      const minute = line.split(' ')[0]!;
      expect(table.some((other) => other === `${minute} gear clamp 0 free`)).toBe(true);
    }
  });
});

describe('a scenario that never gets on', () => {
  const run = (sketch: Sketch) => () =>
    new CellRun(shiftsOfSketch(sketch).map(compile)).run(0, [new SilentRecorder()]);

  test('ends with an error that names the loop', () => {
    const sketch = fit(
      { time: 0, benches: 0, rework: [{ to: 'fit', percent: 99.85 }] },
      { intake: { kind: 'constant', inside: 400 } },
    );
    expect(run(sketch)).toThrow(RunawayError);
    expect(run(sketch)).toThrow(/units go round "fit" without any time passing at minute 0/);
  });

  test('ends with an error where units come in and leave at once', () => {
    expect(run(fit({ time: 0 }, { intake: { kind: 'constant', inside: 1 } }))).toThrow(
      /units keep arriving without any time passing at minute 0/,
    );
  });
});
