import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import ICAL from 'ical.js';
import { afterAll, describe, expect, it } from 'vitest';
import { readCsv } from '../../src/document/csv.ts';
import type { CrewPlan } from '../../src/staffing/plan-crew.ts';
import { clampwright, json, spawned, stoppedUnderWay, widest } from './program.ts';

const QUICK = ['--count', '40', '--search', '600'];
const folder = mkdtempSync(join(tmpdir(), 'clampwright-crew-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('the crew command', () => {
  const words = [
    'crew',
    '--out',
    'wren',
    '--late',
    'kofi=30@50',
    '--perhaps',
    'ines=90',
    '--overtime',
    '30',
    '--overtime-for',
    'kofi,tova',
    '--no-absences',
    ...QUICK,
  ];

  it('says who stands where, what that makes, and how sure it is, on lines of 100 columns', () => {
    const { code, out, err } = clampwright([
      ...words,
      '--try',
      '{"people":{"orla":{"covers":["stage"],"changes":null}}}',
      '--cross-training',
      '3',
    ]);
    expect(err).toBe('');
    expect(code).toBe(0);
    expect(widest(out)).toBeLessThanOrEqual(100);
    for (const part of [
      'The sheet',
      'Your change',
      'What it leans on',
      'Second skills',
      'How it was found',
      'Cautions',
      'The same numbers again',
    ])
      expect(out).toContain(`\n${part}\n`);
    expect(out).toMatch(/Kofi \(perhaps 30 min\s+late\)/);
    expect(out).toContain('Your change loses');
    expect(out).not.toContain('unknown');
    expect(out).toContain('It breaks a rule: too few people stand at fit from 06:00.');
    expect(out).toContain('IIE Transactions 36(10)');
    expect(out).toMatch(
      /Command: clampwright crew scenarios\/chair-works\.json --out wren\s+--late kofi=30@50/,
    );
  });

  it('gives the same plan as data on any number of threads, and again by the command it names', () => {
    const one = json<{ plan: CrewPlan; again: string[] }>(
      clampwright([...words, '--seed', 'another', '--json']).out,
    );
    const two = json<{ plan: CrewPlan }>(spawned([...one.again.slice(1), '--json', '--threads', '2']).out);
    expect(two.plan).toEqual(one.plan);
    expect(
      one.plan.sheet.people
        .filter((person) => person.overtime > 0)
        .every((person) => ['kofi', 'tova'].includes(person.id)),
    ).toBe(true);
  });

  it('writes the sheet as a table, for the wall, and as a calendar that another reader takes', () => {
    const [sheet, wall, calendar] = ['sheet.csv', 'wall.html', 'crew.ics'].map((name) =>
      join(folder, name),
    ) as [string, string, string];
    const { code } = clampwright([
      ...words,
      '--sheet',
      sheet,
      '--wall',
      wall,
      '--calendar',
      calendar,
      '--day',
      '2026-03-03',
    ]);
    expect(code).toBe(0);
    expect(readCsv(readFileSync(sheet, 'utf8'))[0]).toEqual([
      'person',
      'what',
      'from',
      'to',
      'steps in order',
      'note',
    ]);
    const page = readFileSync(wall, 'utf8');
    expect(page).toContain('<h1>Crew sheet: Chair works, Tuesday 3 March 2026</h1>');
    expect(page).toContain('A forecast, not a promise');
    const events = new ICAL.Component(ICAL.parse(readFileSync(calendar, 'utf8')) as unknown[])
      .getAllSubcomponents('vevent')
      .map((one) => new ICAL.Event(one));
    const orla = events.find((event) => event.summary === 'Orla: Chair works')!;
    expect([orla.startDate.toString(), orla.endDate.toString()]).toEqual([
      '2026-03-03T06:00:00',
      '2026-03-03T14:30:00',
    ]);
    expect(events.some((event) => event.summary.startsWith('Wren'))).toBe(false);
  });

  it.each([
    [
      ['--out', 'kofo'],
      'There is nobody called "kofo" in the file; it has orla, bastian, tova, ines, kofi, wren. Did you mean "kofi"?',
    ],
    [['--out', 'kofi', '--late', 'kofi=10'], '"kofi" is named twice among --out, --late and --perhaps.'],
    [['--late', 'kofi'], '--late takes a person and minutes, such as kofi=30'],
    [['--perhaps', 'ines=120'], '--perhaps: a chance is 0 to 100 %, not 120.'],
    [['--overtime-for', 'kofi'], '--overtime says how many minutes at most'],
    [
      ['--leave', 'coffee'],
      '--leave takes posts, order, changes, breaks, last-start, overtime, rule; found coffee.',
    ],
    [['--day', 'tomorrow'], '--day takes a date such as 2026-03-02, not tomorrow.'],
    [['--out', 'orla,bastian,tova,ines,kofi,wren'], 'Everybody is out: there is no crew to plan.'],
    [['--try', 'covers'], '--try takes changes as JSON'],
  ])('refuses %j in a sentence', (given, sentence) => {
    const { code, err } = clampwright(['crew', ...given, ...QUICK]);
    expect(code).toBe(2);
    expect(err.replace(/\s+/g, ' ')).toContain(sentence);
  });

  it('offers nothing when it is stopped before a plan is settled', async () => {
    const { code, out, err } = await stoppedUnderWay(
      ['crew', '--search', '10000000'],
      (ended) => ended.code !== 0,
    );
    expect(code).toBe(130);
    expect(out).toBe('');
    expect(err).toContain('nothing is offered');
  });
});
