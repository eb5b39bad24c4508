/** A week lived through the commands by one book: planned, counted, handed over, closed, and the next day. */
import { copyFileSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { readBook } from '../../src/book/book.ts';
import { dayOf } from '../../src/book/day.ts';
import type { Entry } from '../../src/book/entry.ts';
import { clockAfter } from '../../src/scenario/clock.ts';
import { resolve } from '../../src/scenario/resolve.ts';
import type { Scenario } from '../../src/scenario/schema.ts';
import { checkNow } from '../../src/today/check-now.ts';
import { forecastNow } from '../../src/today/forecast.ts';
import { countedBefore, countKept } from '../../src/today/kept-counts.ts';
import { openedDay } from '../../src/today/opened-day.ts';
import { inLineRunner } from '../../src/work/in-line.ts';
import { shipped, shop } from '../support/shops.ts';
import { clampwright, json } from './program.ts';

const DAYS = ['2027-03-08', '2027-03-09', '2027-03-10', '2027-03-11', '2027-03-12'];
const COUNT = 30;
const folder = mkdtempSync(join(tmpdir(), 'clampwright-week-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const entriesIn = (path: string): Entry[] => readBook(readFileSync(path)).entries;
const plain = (value: unknown): unknown => JSON.parse(JSON.stringify(value));

/** What a page shows of the last count: the same functions, in the page's own thread. */
async function pagesForecast(filed: Scenario, entries: Entry[], day: string): Promise<unknown> {
  const opened = openedDay(filed, entries, day);
  const checked = checkNow(opened.scenario, countKept(opened.view.counts.at(-1)!.content));
  if (checked.kind === 'wrong') throw new Error(checked.faults.join(' '));
  const earlier = countedBefore(opened.scenario, opened);
  return plain(await forecastNow(opened.scenario, checked.now, inLineRunner(), undefined, COUNT, earlier));
}

describe.each([
  ['chair-works', shipped('chair-works'), DAYS],
  ['stair-parts', shop('stair-parts'), DAYS.slice(0, 2)],
] as const)('a week of %s', (name, scenario, days) => {
  const file = join(folder, `${name}.json`);
  writeFileSync(file, JSON.stringify(scenario));
  const book = join(folder, `${name}.jsonl`);
  const { start, length, steps } = resolve(scenario);
  const [one, two] = steps
    .filter(({ kind, aside }) => kind === 'hands' && !aside)
    .map(({ id }) => id)
    .slice(-2);
  const run = (...words: string[]): string => {
    const { code, out, err } = clampwright([words[0]!, file, ...words.slice(1), '--log', book]);
    expect(code, err).toBe(0);
    return out;
  };
  const counted = (
    day: string,
    minute: number,
    good: number,
    waiting: string,
    more: string[] = [],
  ): unknown =>
    json<{ forecast: unknown }>(
      run(
        'now',
        ...['--day', day, '--at', clockAfter(start, minute), '--good', String(good), '--waiting', waiting],
        ...['--no-moves', '--count', String(COUNT), '--json'],
        ...more,
      ),
    ).forecast;

  it('is planned on Friday, counted, handed over and closed, and each day opens with the one before', async () => {
    run('crew', '--day', DAYS[0]!, '--keep', '--count', '30', '--search', '200', '--no-absences');
    expect(dayOf(entriesIn(book), DAYS[0]!).forecast!.late).toBe(false);
    for (const [i, day] of days.entries()) {
      expect(json<{ lines: unknown[] }>(run('morning', '--day', day, '--json')).lines).toHaveLength(6);
      const opened = openedDay(scenario, entriesIn(book), day);
      expect(opened.unused).toEqual([]);
      expect(opened.opening).toEqual(i === 0 ? { kind: 'file' } : { kind: 'handover', day: days[i - 1] });
      expect(opened.plan !== null).toBe(i === 0);
      for (const [k, minute] of [180, 300, 420].entries()) {
        const told = counted(day, minute, 4 * (k + 1), `${one}=1,${two}=1`, ['--keep']);
        if (k < 2 || i > 0) continue;
        // In whatever order it is told, wherever it is asked: the same figures, bit for bit.
        expect(counted(day, minute, 4 * (k + 1), `${two}=1,${one}=1`)).toEqual(told);
        expect(await pagesForecast(scenario, entriesIn(book), day)).toEqual(told);
      }
      run(
        'handover',
        '--day',
        day,
        '--at',
        clockAfter(start, length),
        '--good',
        '15',
        '--waiting',
        `${two}=1`,
      );
      run('result', '--day', day, '--good', String(15 + i));
    }
    const end = days.at(-1)!;
    const last = dayOf(entriesIn(book), end);
    expect(last.counts.map(({ content }) => content.good)).toEqual([4, 8, 12]);
    // Everything can be taken back, and is still there.
    const before = entriesIn(book);
    expect(clampwright(['log', 'undo', '--date', end, '--log', book]).code).toBe(0);
    expect(dayOf(entriesIn(book), end).result).toBeNull();
    expect(entriesIn(book).slice(0, before.length)).toEqual(before);
  }, 120_000);

  it('goes on with the joined book of two tablets, whichever was joined to which', async () => {
    const [a, b] = [join(folder, `${name}-a.jsonl`), join(folder, `${name}-b.jsonl`)];
    copyFileSync(book, a);
    copyFileSync(book, b);
    const at = (path: string, minute: number, good: number): void => {
      const words = ['--day', '2027-03-15', '--at', clockAfter(start, minute), '--good', String(good)];
      const { code, err } = clampwright([
        'now',
        file,
        ...words,
        '--keep',
        '--no-moves',
        '--count',
        '30',
        '--log',
        path,
      ]);
      expect(code, err).toBe(0);
    };
    at(a, 120, 3);
    at(b, 240, 7);
    at(a, 360, 11);
    const [forth, back] = [join(folder, `${name}-ab.jsonl`), join(folder, `${name}-ba.jsonl`)];
    for (const [to, from, other] of [
      [forth, a, b],
      [back, b, a],
    ] as const) {
      copyFileSync(from, to);
      expect(clampwright(['log', 'join', other, '--log', to]).code).toBe(0);
    }
    expect(entriesIn(forth)).toEqual(entriesIn(back));
    const day = dayOf(entriesIn(forth), '2027-03-15');
    expect(day.counts.map(({ content }) => content.good)).toEqual([3, 7, 11]);
    expect(await pagesForecast(scenario, entriesIn(forth), '2027-03-15')).toEqual(
      await pagesForecast(scenario, entriesIn(back), '2027-03-15'),
    );
  }, 120_000);
});
