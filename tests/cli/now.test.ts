import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { readScenario } from '../../src/scenario/check.ts';
import type { Scenario } from '../../src/scenario/schema.ts';
import { clampwright, json, scenarioFile, widest } from './program.ts';

const folder = mkdtempSync(join(tmpdir(), 'clampwright-now-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const at = (name: string): string => join(folder, name);
const COUNT = [
  '--at',
  '10:40',
  '--good',
  '8',
  '--waiting',
  'fit=3,sand=2',
  '--curing',
  '12',
  '--in-hand',
  'fit=orla@6',
];

describe('now', () => {
  it('answers do we still make it, what to move, and plan against fact, within a hundred columns', () => {
    const { code, out, err } = clampwright(['now', ...COUNT, '--count', '60']);
    expect([code, err]).toEqual([0, '']);
    expect(out).toMatch(/^Chair works at 10:40: 22 is unlikely/);
    expect(out).toContain('8 good units by 10:40.');
    expect(out).toMatch(/\n10:40 +\d+ \(\d+ to \d+\) +8/);
    expect(out).toMatch(/\n11:00 .*\n12:00 .*\n13:00 /);
    expect(widest(out)).toBeLessThanOrEqual(100);
  });
  it('gives the same as one JSON document, whose moves in the text are those that surely help', () => {
    const { out } = clampwright(['now', ...COUNT, '--count', '60', '--json']);
    const { forecast, moves } = json<{
      forecast: { soFar: number; ends: { half: number } };
      moves: { move: { name: string }; gain: { low: number } }[];
    }>(out);
    expect(forecast.soFar).toBe(8);
    const text = clampwright(['now', ...COUNT, '--count', '60']).out;
    const helps = moves.filter((one) => one.gain.low > 0);
    expect(text).toContain(`${helps.length} moves surely help`);
    for (const { move } of moves.filter((one) => one.gain.low <= 0))
      expect(text).not.toContain(`- ${move.name}`);
  });
  it('counts from a record of events, and hands over into a file that runs the next morning', () => {
    clampwright(['record', '--save', at('day.csv')]);
    const handed = clampwright([
      'now',
      '--events',
      at('day.csv'),
      '--at',
      '14:30',
      '--handover',
      '--promised',
      'eighteen',
      '--tomorrow',
      at('tomorrow.json'),
    ]);
    expect(handed.code).toBe(0);
    expect(handed.out).toMatch(/good of the 22 due by 14:30[^]*Promised: eighteen[^]*What stands where/);
    const next = readScenario(readFileSync(at('tomorrow.json'), 'utf8'));
    expect(next.kind).toBe('fine');
    expect(clampwright(['run', at('tomorrow.json'), '--count', '30', '--no-why']).code).toBe(0);
  });
  it.each([
    [['--at', '10:40', '--waiting', 'sannd=2'], /no step is called "sannd"/],
    [['--at', '23:00', '--good', '2'], /not within the shift/],
    [['--at', '10:40', '--curing', '1,2,3,4,5'], /clamp/],
    [['--at', '10:40', '--out', 'nobody'], /nobody is called "nobody"/],
  ])('refuses a count that cannot be, in a sentence and with exit code 1: %j', (words, sentence) => {
    const { code, err } = clampwright(['now', ...words]);
    expect(code).toBe(1);
    expect(err).toMatch(sentence);
  });
});

describe('times', () => {
  const MESSY = [
    'Stopwatch study, sanding bench;;;',
    'Datum;Station;Wer;Dauer (min)',
    '03.03.2025;sand;Bastian;24,5',
    '03.03.2025;sand;Bastian;22,1',
    '04.03.2025;Sand;Bastian;26,0',
    '04.03.2025;sand;Bastian;fast',
    '04.03.2025;snad;Bastian;21,0',
    '05.03.2025;sand;Bastian;120',
    '05.03.2025;sand;Bastian;23,4',
    '05.03.2025;sand;Bastian;25,2',
    '05.03.2025;sand;Bastian;',
  ].join('\r\n');
  writeFileSync(at('messy.csv'), MESSY);
  it('reads a messy list: six times used, three rows listed with why, the far one shown and kept', () => {
    const { code, out } = clampwright(['times', at('messy.csv')]);
    expect(code).toBe(5);
    expect(out).toContain('6 times read, 3 rows not read');
    expect(out).toMatch(/Row 6: .*fast/);
    expect(out).toMatch(/Row 7: no step is called “snad”; the nearest is “sand”/);
    expect(out).toMatch(/Row 11: no time given/);
    expect(out).toContain('Far from the rest: 120.0 min. It is kept');
    expect(widest(out)).toBeLessThanOrEqual(100);
  });
  it('writes the scenario with the chosen curves and where they came from; a curve chosen by hand is used', () => {
    const { code } = clampwright([
      'times',
      'scenarios/chair-works-times-invented.csv',
      '--use',
      'sand=quick-usual-slow',
      '--apply',
      at('fitted.json'),
    ]);
    expect(code).toBe(0);
    const read = readScenario(readFileSync(at('fitted.json'), 'utf8'));
    const steps = read.kind === 'fine' ? read.scenario.steps : {};
    expect(Object.keys(steps['sand']!.time as object)).toEqual(['quick', 'usual', 'slow']);
    expect(steps['sand']!.timesFrom!.time).toMatch(
      /^25 times taken, 2025-03-03 to 2025-03-07, \d people: quick, usual, slow/,
    );
    expect(
      (JSON.parse(readFileSync(scenarioFile('chair-works'), 'utf8')) as Scenario).steps['sand']!.time,
    ).not.toEqual(steps['sand']!.time);
  });
  it('shows luck and what is not known of the times apart', () => {
    const { out } = clampwright([
      'times',
      'scenarios/chair-works-times-invented.csv',
      '--forecast',
      '--resamples',
      '30',
      '--json',
    ]);
    const { split } = json<{
      forecast: {
        split: {
          luck: number;
          input: number;
          shifts: { luckOnly: { low: number; high: number }; widened: { low: number; high: number } };
        };
      };
    }>(out).forecast;
    expect(split.luck).toBeGreaterThan(0.3);
    expect(split.input).toBeLessThan(split.luck * 2);
    expect(split.shifts.widened.high - split.shifts.widened.low).toBeGreaterThanOrEqual(
      split.shifts.luckOnly.high - split.shifts.luckOnly.low - 0.5,
    );
  });
  it('takes a column as it is told to, and says what it has where that is not there', () => {
    writeFileSync(at('odd.csv'), 'a,b\nsand,20\nsand,22\nsand,25\n');
    const told = json<{ read: { observations: { minutes: number }[] } }>(
      clampwright(['times', at('odd.csv'), '--map', 'a=step,b=minutes', '--json']).out,
    );
    expect(told.read.observations.map((one) => one.minutes)).toEqual([20, 22, 25]);
    const wrong = clampwright(['times', at('odd.csv'), '--map', 'c=step']);
    expect(wrong.code).toBe(2);
    expect(wrong.err).toContain('no column "c"; it has "a", "b"');
  });
});

describe('log', () => {
  const LOG = ['--log', at('log.json')];
  it('keeps a forecast, takes the record of the day, and shows them side by side', () => {
    expect(clampwright(['log', 'forecast', '--date', '2027-03-05', '--count', '60', ...LOG]).code).toBe(0);
    clampwright(['record', '--replication', '3', '--save', at('day3.csv')]);
    const added = clampwright([
      'log',
      'add',
      '--date',
      '2027-03-05',
      '--events',
      at('day3.csv'),
      '--note',
      'quiet',
      ...LOG,
    ]);
    expect(added.code).toBe(0);
    const shown = clampwright(['log', 'show', ...LOG]);
    expect(shown.out).toMatch(/2027-03-05 +\d+ to \d+ +\d+ +\d+% +22 +\d+ +(within|under|over) +quiet/);
    expect(shown.out).toContain('Which times have drifted');
    expect(widest(shown.out)).toBeLessThanOrEqual(100);
    const { log } = json<{ log: { days: { good: number; times: unknown[] }[] } }>(
      clampwright(['log', 'show', '--json', ...LOG]).out,
    );
    expect(log.days[0]!.good).toBeGreaterThan(10);
    expect(log.days[0]!.times.length).toBeGreaterThan(80);
  });
  it('says why a day missed, and the person who was out is the cause', () => {
    const { code, out } = clampwright([
      'log',
      'why',
      '--date',
      '2027-03-06',
      '--good',
      '14',
      '--out',
      'kofi',
      ...LOG,
    ]);
    expect(code).toBe(0);
    expect(out).toMatch(/^2027-03-06: 14 good units, \d\.\d under/);
    expect(out).toMatch(/People cost \d\.\d units/);
    expect(out).not.toMatch(/Times cost|Late kits cost|Rework cost/);
  });
  it.each([
    [['add', '--date', '2027-03-06'], /Say how many were good/, 2],
    [['add', '--date', '6 March', '--good', '3'], /YYYY-MM-DD/, 2],
    [['why', '--date', '2027-03-09'], /no number for 2027-03-09/, 2],
    [['why', '--date', '2027-03-09', '--good', '3', '--pace', 'fitt=2'], /there is no "fitt"/, 2],
  ])('refuses in a sentence: log %j', (words, sentence, exit) => {
    const { code, err } = clampwright(['log', ...words, ...LOG]);
    expect(code).toBe(exit);
    expect(err).toMatch(sentence);
  });
});
