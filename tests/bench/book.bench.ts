/**
 * Ten years of days: `npx vitest bench tests/bench/book.bench.ts`. 2,500 working days of a plan, a forecast,
 * three counts, a handover and a result each, as the commands write them; the aim is under a second.
 */
import { bench, describe } from 'vitest';
import { readBook, writeBook } from '../../src/book/book.ts';
import type { Entry } from '../../src/book/entry.ts';
import type { ToSay } from '../../src/book/next-entry.ts';
import { logPage } from '../../src/report/log-page.ts';
import { morningLines } from '../../src/report/morning-page.ts';
import { workingDays } from '../../src/scenario/calendar.ts';
import { coverageOfBook, logOfBook } from '../../src/timing/log-book.ts';
import { openedDay } from '../../src/today/opened-day.ts';
import { shipped } from '../support/shops.ts';

const scenario = shipped('chair-works');
const days = workingDays(scenario, '2017-03-06', 2500);
const inside = [
  { at: 'fit', units: 3 },
  { at: 'cure', state: 'curing', minutes: 12 },
  { at: 'sand', units: 2 },
];

const saidOf = (day: string, i: number): ToSay[] => [
  { day, kind: 'plan', content: { changes: { people: {} }, target: 22, answer: ['The 22 due are made.'] } },
  {
    day,
    kind: 'forecast',
    content: { forecast: { p10: 18, p50: 20, p90: 22, chance: 0.3 }, target: 22, start: '06:00' },
  },
  ...['09:00', '11:00', '13:00'].map((at, k): ToSay => ({
    day,
    kind: 'count',
    content: { at, good: 5 * (k + 1), inside, holds: [], out: [], broken: [] },
  })),
  { day, kind: 'handover', content: { at: '14:30', good: 20, inside, holds: [], out: [], broken: [] } },
  { day, kind: 'result', content: { good: 16 + (i % 8), target: 22, scrap: { split: 1 } } },
];

const entries = days.flatMap((day, i) =>
  saidOf(day, i).map((said, k): Entry => ({
    entry: 1,
    id: `${day}-${k}`,
    at: `${day}T0${k < 2 ? 5 : 6}:0${k}:00+00:00`,
    by: 'clampwright',
    cell: scenario.name,
    ...said,
  })),
);
const bytes = new TextEncoder().encode(writeBook(entries));
const last = days.at(-1)!;

describe(`${entries.length} entries, ${(bytes.length / 1e6).toFixed(1)} MB`, () => {
  bench('are read from the file', () => void readBook(bytes));
  bench('open the last day, with its six lines', () => {
    const opened = openedDay(scenario, entries, last);
    morningLines(scenario, entries, opened);
  });
  bench('tell whether the forecasts were right', () => {
    const log = logOfBook(entries, scenario.name);
    coverageOfBook(log);
    logPage({ scenario, log, drifts: [] });
  });
});
