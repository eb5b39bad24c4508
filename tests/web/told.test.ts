/**
 * A shift in the words of the shop: what each lane does, and why somebody or something waited. Fixed times,
 * reckoned by hand.
 */
import { describe, expect, test } from 'vitest';
import { recordReplay } from '../../src/record/replay.ts';
import {
  blockAt,
  blockWords,
  clockAt,
  eventWords,
  lengthAt,
  meaningOfStep,
  newsOf,
  tellOf,
  waitedForHands,
  whyWords,
  type Told,
  type ToldLane,
} from '../../web/pages/replay/told.ts';
import { shiftOf } from '../support/run-cell.ts';

const told = (scenario: unknown): Told => {
  const shift = shiftOf(scenario);
  return tellOf(shift, recordReplay([shift], 0)[0]!);
};
const laneOf = (all: Told, name: string): ToldLane => all.lanes.find((lane) => lane.name === name)!;
/** What is said of a lane at a minute, and why. */
const said = (all: Told, name: string, at: number): [string, string] => {
  const lane = laneOf(all, name);
  const block = blockAt(lane, at)!;
  return [blockWords(all, lane, block), whyWords(all, lane, block)];
};

/**
 * Ana glues for 5 and unclamps for 5, one clamp set, 20 of cure; a break from 06:10 to 06:40; Bo sands for
 * 10.
 */
const GLUE = {
  format: 1,
  name: 'Glueing',
  gear: { clamp: { name: 'clamp set', count: 1 } },
  intake: { kind: 'at start', units: 2 },
  shift: { start: '06:00', end: '08:00', breaks: [{ from: '06:10', minutes: 30, name: 'breakfast' }] },
  people: { ana: { name: 'Ana', covers: ['glue', 'free'] }, bo: { name: 'Bo', covers: ['sand'] } },
  steps: {
    glue: { name: 'Glue up', time: 5, benches: 0, whole: true, takes: [{ gear: 'clamp', until: 'free' }] },
    cure: { kind: 'wait', time: 20 },
    free: { name: 'unclamp', time: 5, benches: 0 },
    sand: { time: 10, rack: 4 },
  },
};

describe('a shift told', () => {
  const all = told(GLUE);

  test('has gear before people, each piece of it by number where there are several', () => {
    expect(all.lanes.map(({ kind, name }) => [kind, name])).toEqual([
      ['gear', 'clamp set'],
      ['person', 'Ana'],
      ['person', 'Bo'],
    ]);
    expect(
      told({ ...GLUE, gear: { clamp: { name: 'clamp set', count: 2 } } })
        .lanes.slice(0, 2)
        .map(({ name }) => name),
    ).toEqual(['clamp set 1', 'clamp set 2']);
  });

  test('says what a clamp set waited for, and what those who stand there were at', () => {
    // Glued 0 to 5, cured at 25; Ana is on break until 40.
    expect(said(all, 'clamp set', 30)).toEqual([
      'clamp set, 06:25 to 06:40 (15 minutes): waiting for hands: unclamp is next, piece 1.',
      'Those who stand at unclamp, at 06:25: Ana (on break).',
    ]);
    expect(laneOf(all, 'clamp set').blocks.map(({ from, to, meaning }) => [from, to, meaning])).toEqual([
      [0, 5, 'glue-up'],
      [5, 25, 'cure'],
      [25, 40, 'waiting'],
      [40, 45, 'unclamping'],
      [45, 50, 'glue-up'],
      [50, 70, 'cure'],
      [70, 75, 'unclamping'],
      [75, 120, 'free'],
    ]);
    expect(waitedForHands(all)).toBe(15);
  });

  test('says why a person had to wait: no clamp set free, and until when', () => {
    expect(said(all, 'Ana', 7)).toEqual([
      'Ana, 06:05 to 06:10 (5 minutes): no clamp set free.',
      'clamp set: cure, piece 1 until 06:25.',
    ]);
  });

  test('says why there was nothing to work on: who should have brought it', () => {
    // On break before 06:40; then the first piece is being unclamped.
    expect(said(all, 'Bo', 42)[0]).toBe('Bo, 06:40 to 06:45 (5 minutes): nothing to work on.');
    expect(said(all, 'Bo', 42)[1]).toBe(
      'Nothing stood before sand; at unclamp then: Ana (unclamp, piece 1).',
    );
    expect(said(all, 'Bo', 5)[1]).toBe('Nothing stood before sand; at unclamp then: Ana (glue up, piece 1).');
  });

  test('gives no reason where nobody waited', () => {
    expect(said(all, 'Ana', 2)).toEqual(['Ana, 06:00 to 06:05 (5 minutes): glue up, piece 1.', '']);
    expect(said(all, 'Ana', 20)[1]).toBe('');
  });

  test('says when a whole piece would not have fitted before a break', () => {
    const tight = told({
      ...GLUE,
      gear: { clamp: { name: 'clamp set', count: 2 } },
      steps: { ...GLUE.steps, glue: { ...GLUE.steps.glue, time: 7 } },
    });
    expect(said(tight, 'Ana', 8)[1]).toBe(
      'A whole piece would not have fitted before the breakfast at 06:10.',
    );
  });

  test('names the rack that was full where there was nowhere to put it', () => {
    const full = told({
      format: 1,
      name: 'Full',
      intake: { kind: 'at start', units: 9 },
      shift: { start: '06:00', end: '08:00' },
      people: { ana: { name: 'Ana', covers: ['plane'] }, bo: { name: 'Bo', covers: ['sand'] } },
      steps: { plane: { time: 5 }, sand: { name: 'Sand', time: 30, rack: 1 } },
    });
    // The first goes straight on at 5, the second stands in the one slot at 10, the third has none at 15.
    expect(said(full, 'Ana', 20)).toEqual([
      'Ana, 06:15 to 06:35 (20 minutes): nowhere to put it.',
      'The rack before sand was full (1).',
    ]);
  });

  test('has the length of each line at a minute, and only lines there ever were', () => {
    expect(all.lines.map(({ name }) => name)).toEqual(['Glue up', 'unclamp', 'sand']);
    expect(told({ ...GLUE, intake: { kind: 'at start', units: 0 } }).lines).toEqual([]);
    const [glue, free] = all.lines;
    expect([0, 10, 44, 45, 100].map((at) => lengthAt(glue!, at))).toEqual([1, 1, 1, 0, 0]);
    expect([24, 25, 39, 40].map((at) => lengthAt(free!, at))).toEqual([0, 1, 1, 0]);
  });

  test('gives a time of the clock, past midnight too', () => {
    expect(clockAt(all.shift, 75)).toBe('07:15');
    expect(clockAt({ ...all.shift, start: '22:00' }, 150)).toBe('00:30');
  });

  test('knows the meaning of each step', () => {
    expect(['glue', 'cure', 'free', 'sand', 'none'].map((id) => meaningOfStep(id, all.shift))).toEqual([
      'glue-up',
      'cure',
      'unclamping',
      'other',
      'other',
    ]);
  });

  test('tells what happened, one thing a line, in order', () => {
    const news = newsOf(all.replay);
    expect(news.map(({ time }) => time)).toEqual([...news.map(({ time }) => time)].sort((a, b) => a - b));
    const words = news.map((row) => `${clockAt(all.shift, row.time / 60_000)} ${eventWords(row, all.shift)}`);
    expect(words).toContain('06:00 Ana begins glue up, piece 1');
    expect(words).toContain('06:10 Ana goes on break');
    expect(words).toContain('06:25 piece 1 is cured');
    expect(words).toContain('06:40 Ana is back');
    expect(words).toContain('06:55 piece 1 is good');
  });
});
