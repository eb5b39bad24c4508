/**
 * One person, clamp sets, a fixed cure: every line worked out by hand. The 30-minute cure is common practice,
 * no source.
 */
import { describe, expect, test } from 'vitest';
import { eventTable, type Sketch } from '../support/event-table.ts';

/** Glue 5, cure 30, unclamp 3, four joints at the start, whatever has waited longest first. */
const glueUp = (sets: number): Sketch => ({
  steps: {
    glue: { time: 5, benches: 0, takes: [{ gear: 'clamp', until: 'unclamp' }] },
    cure: { kind: 'wait', time: 30 },
    unclamp: { time: 3, benches: 0 },
  },
  gear: { clamp: { count: sets } },
  people: { ana: { covers: ['glue', 'unclamp'], rule: 'oldest' } },
  intake: { kind: 'at start', units: 4 },
});

const WORK = ['start', 'finish', 'cured', 'good'];

describe('one pair of hands with clamp sets', () => {
  test('does everything with one set one after another and ends at 152', () => {
    expect(eventTable(glueUp(1), WORK)).toEqual([
      '0 start 0 glue ana',
      '5 finish 0 glue on',
      '35 cured 0 cure on',
      '35 start 0 unclamp ana',
      '38 finish 0 unclamp on',
      '38 good 0',
      '38 start 1 glue ana',
      '43 finish 1 glue on',
      '73 cured 1 cure on',
      '73 start 1 unclamp ana',
      '76 finish 1 unclamp on',
      '76 good 1',
      '76 start 2 glue ana',
      '81 finish 2 glue on',
      '111 cured 2 cure on',
      '111 start 2 unclamp ana',
      '114 finish 2 unclamp on',
      '114 good 2',
      '114 start 3 glue ana',
      '119 finish 3 glue on',
      '149 cured 3 cure on',
      '149 start 3 unclamp ana',
      '152 finish 3 unclamp on',
      '152 good 3',
    ]);
  });

  test('glues 0-5, 5-10, 38-43 and 46-51 with two sets and ends at 84', () => {
    expect(eventTable(glueUp(2), WORK)).toEqual([
      '0 start 0 glue ana',
      '5 finish 0 glue on',
      '5 start 1 glue ana',
      '10 finish 1 glue on',
      '35 cured 0 cure on',
      '35 start 0 unclamp ana',
      '38 finish 0 unclamp on',
      '38 good 0',
      '38 start 2 glue ana',
      '40 cured 1 cure on',
      '43 finish 2 glue on',
      '43 start 1 unclamp ana',
      '46 finish 1 unclamp on',
      '46 good 1',
      '46 start 3 glue ana',
      '51 finish 3 glue on',
      '73 cured 2 cure on',
      '73 start 2 unclamp ana',
      '76 finish 2 unclamp on',
      '76 good 2',
      '81 cured 3 cure on',
      '81 start 3 unclamp ana',
      '84 finish 3 unclamp on',
      '84 good 3',
    ]);
  });

  test('ends at 76 with three sets', () => {
    expect(eventTable(glueUp(3), WORK)).toEqual([
      '0 start 0 glue ana',
      '5 finish 0 glue on',
      '5 start 1 glue ana',
      '10 finish 1 glue on',
      '10 start 2 glue ana',
      '15 finish 2 glue on',
      '35 cured 0 cure on',
      '35 start 0 unclamp ana',
      '38 finish 0 unclamp on',
      '38 good 0',
      '38 start 3 glue ana',
      '40 cured 1 cure on',
      '43 finish 3 glue on',
      '43 start 1 unclamp ana',
      '45 cured 2 cure on',
      '46 finish 1 unclamp on',
      '46 good 1',
      '46 start 2 unclamp ana',
      '49 finish 2 unclamp on',
      '49 good 2',
      '73 cured 3 cure on',
      '73 start 3 unclamp ana',
      '76 finish 3 unclamp on',
      '76 good 3',
    ]);
  });

  test('ends at 53 with a set for each joint', () => {
    expect(eventTable(glueUp(4), WORK)).toEqual([
      '0 start 0 glue ana',
      '5 finish 0 glue on',
      '5 start 1 glue ana',
      '10 finish 1 glue on',
      '10 start 2 glue ana',
      '15 finish 2 glue on',
      '15 start 3 glue ana',
      '20 finish 3 glue on',
      '35 cured 0 cure on',
      '35 start 0 unclamp ana',
      '38 finish 0 unclamp on',
      '38 good 0',
      '40 cured 1 cure on',
      '40 start 1 unclamp ana',
      '43 finish 1 unclamp on',
      '43 good 1',
      '45 cured 2 cure on',
      '45 start 2 unclamp ana',
      '48 finish 2 unclamp on',
      '48 good 2',
      '50 cured 3 cure on',
      '50 start 3 unclamp ana',
      '53 finish 3 unclamp on',
      '53 good 3',
    ]);
  });

  test('counts the minutes of both sets: glued up, curing, waiting for hands, unclamped, free', () => {
    // Set 0 holds joints 0 and 2, set 1 joints 1 and 3. Joint 1 is cured at 40 and waits for hands until 43.
    expect(eventTable(glueUp(2), ['gear'])).toEqual([
      '0 gear clamp 0 at glue',
      '5 gear clamp 0 at cure',
      '5 gear clamp 1 at glue',
      '10 gear clamp 1 at cure',
      '35 gear clamp 0 at unclamp',
      '38 gear clamp 0 at glue',
      '40 gear clamp 1 before unclamp',
      '43 gear clamp 0 at cure',
      '43 gear clamp 1 at unclamp',
      '46 gear clamp 1 at glue',
      '51 gear clamp 1 at cure',
      '73 gear clamp 0 at unclamp',
      '76 gear clamp 0 free',
      '81 gear clamp 1 at unclamp',
      '84 gear clamp 1 free',
    ]);
  });
});
