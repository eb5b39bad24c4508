/** Choices side by side: what waits and who stays, the figures for a spreadsheet, and the picture. */
import { beforeAll, describe, expect, test } from 'vitest';
import { sideBySidePicture, type SideBySide } from '../../src/charts/index.ts';
import { twentyOf } from '../../src/charts/side-by-side.ts';
import { widthOf } from '../../src/charts/words.ts';
import { inLineRunner } from '../../src/work/in-line.ts';
import { sideBySide, waitingAndStaying } from '../../src/report/parts/side-by-side.ts';
import { sideBySideTable } from '../../src/report/parts/side-by-side-table.ts';
import { checkScenario } from '../../src/scenario/check.ts';
import type { Scenario } from '../../src/scenario/schema.ts';
import { comparison } from '../../src/study/from-scenario.ts';
import { runStudy, type StudyRequest } from '../../src/study/study.ts';
import { summarize, type StudySummary } from '../../src/study/summary.ts';
import { decimalsAlike, differenceAlike, rangeAlike } from '../../src/words/alike.ts';
import { shipped, shop } from '../support/shops.ts';

interface Compared {
  request: StudyRequest;
  study: StudySummary;
}

async function compared(scenario: Scenario, count: number): Promise<Compared> {
  const request = { ...comparison(scenario, Object.keys(scenario.options ?? {})), count };
  return { request, study: summarize(await runStudy(request, inLineRunner())) };
}

const drawnOf = ({ request, study }: Compared): SideBySide =>
  sideBySide(study, request.cases, {
    ids: study.cases.map(({ id }) => id),
    names: study.cases.map(({ name }) => name),
    words: study.cases.map(() => 'it makes what it makes.'),
    looked: study.cases[1]!.id,
  });

/** Six pieces at 06:00, ten minutes each, alone until 06:55; and with a second person and bench. */
const byHand = checkScenario({
  format: 1,
  name: 'By hand',
  steps: { fit: { time: 10 } },
  people: { ada: { covers: ['fit'] } },
  shift: { start: '06:00', end: '06:55' },
  intake: { kind: 'at start', units: 6 },
  options: {
    two: { name: 'Two', changes: { steps: { fit: { benches: 2 } }, people: { ben: { covers: ['fit'] } } } },
  },
});

describe('what waits and who stays', () => {
  test('is as worked out by hand: 0 to 50 minutes each over 60, and half of that for two', async () => {
    if (byHand.kind === 'wrong') throw new Error(byHand.faults[0]!.text);
    const { request, study } = await compared(byHand.scenario, 2);
    const found = waitingAndStaying(study, request.cases)!;
    expect(found.waiting).toHaveLength(1);
    // Alone: 10 + 20 + 30 + 40 + 50 over the 60 minutes until the last is done; two: 2 x (10 + 20) over 55.
    expect(found.waiting[0]!.values[0]).toBeCloseTo(150 / 60, 9);
    expect(found.waiting[0]!.values[1]).toBeCloseTo(60 / 55, 9);
    // The sixth piece is begun at 06:50 and ended five minutes after the bell; Ben is in the second row only.
    expect(found.after.map(({ id, values }) => [id, values])).toEqual([
      ['ada', [5, 0]],
      ['ben', [null, 0]],
    ]);
  });

  test('is not told of a study that does not tell its shifts yet', async () => {
    const request = { ...comparison(shipped('one-step'), []), count: 2 };
    const study = summarize(await runStudy(request, inLineRunner()), false);
    expect(waitingAndStaying(study, request.cases)).toBeNull();
  });
});

const NAMES = ['chair-works', 'stair-parts', 'frame-works', 'drawer-fronts'] as const;

describe.each(NAMES)('%s side by side', (name) => {
  let all: Compared;
  let data: SideBySide;
  beforeAll(async () => {
    all = await compared(name === 'chair-works' ? shipped(name) : shop(name), 12);
    data = drawnOf(all);
  });

  test.each([340, 390, 640, 784, 1100])('keeps to a width of %d, and no line runs through words', (width) => {
    const svg = sideBySidePicture(data, { width, id: 'p' });
    expect(/.{20}(NaN|Infinity|undefined|\de-\d).{20}/.exec(svg)?.[0] ?? '').toBe('');
    const number = (text: string, key: string): number =>
      Number(new RegExp(` ${key}="([-\\d.]+)"`).exec(text)?.[1]);
    const uprights = [...svg.matchAll(/<line [^>]*>/g)]
      .map(([line]) => ({
        x: number(line, 'x1'),
        to: number(line, 'x2'),
        top: number(line, 'y1'),
        bottom: number(line, 'y2'),
      }))
      .filter(({ x, to, top, bottom }) => x === to && bottom - top > 20);
    const texts = [...svg.matchAll(/<text (x=[^>]*)>([^<]*)</g)].map(([, at, text]) => {
      const size = number(` ${at!}`, 'font-size');
      const wide = widthOf(text!, size);
      const x = number(` ${at!}`, 'x');
      const from = at!.includes('"middle"') ? x - wide / 2 : at!.includes('"end"') ? x - wide : x;
      return { text, from, to: from + wide, base: number(` ${at!}`, 'y'), size };
    });
    expect(texts.length).toBeGreaterThan(10);
    const run = texts.flatMap(({ text, from, to, base, size }) =>
      uprights
        .filter(({ x, top, bottom }) => x > from && x < to && top < base - 1 && bottom > base - size * 0.7)
        .map(({ x }) => `${text} at ${x}`),
    );
    expect(run).toEqual([]);
    const over = texts.flatMap((one, i) =>
      texts
        .slice(i + 1)
        .filter((other) => Math.abs(other.base - one.base) < 8)
        // The estimate of a width is on the wide side.
        .filter((other) => Math.min(one.to, other.to) - Math.max(one.from, other.from) > 6)
        .map((other) => `${one.text} over ${other.text}`),
    );
    expect(over).toEqual([]);
    for (const { text, from, to } of texts) {
      expect(from, text).toBeGreaterThanOrEqual(-1);
      expect(to, text).toBeLessThanOrEqual(width * 1.05);
    }
  });

  test('is about 60 px a row on a desk, each to be touched, and its figures are one a cell', () => {
    const svg = sideBySidePicture(data, { width: 784, id: 'p' });
    const rows = [...svg.matchAll(/height="([\d.]+)"[^>]*data-row="([^"]+)"/g)];
    expect(rows.map(([, , id]) => id)).toEqual(all.study.cases.map(({ id }) => id));
    for (const [, height] of rows) expect(Number(height)).toBeLessThanOrEqual(80);
    const { head, rows: figures } = sideBySideTable(all.study, all.request.cases);
    expect(figures).toHaveLength(all.study.cases.length);
    for (const row of figures) {
      expect(row).toHaveLength(head.length);
      for (const cell of row.slice(1)) expect(cell).toMatch(/^(-?\d+(\.\d+)?)?$/);
    }
    const good = head.indexOf(head.find((one) => one.startsWith('Good units'))!);
    all.study.cases.forEach((one, i) => expect(Number(figures[i]![good])).toBeCloseTo(one.good.estimate, 1));
  });
});

test('twenty dots stand for all shifts, each a value that came', () => {
  const values = Array.from({ length: 1000 }, (_, i) => (i < 250 ? 22 : i < 900 ? 20 : 18));
  const twenty = twentyOf(values);
  expect(twenty.filter((value) => value === 22)).toHaveLength(5);
  expect(twenty.filter((value) => value === 20)).toHaveLength(13);
  expect(twenty.filter((value) => value === 18)).toHaveLength(2);
});

test('ranges under each other have the same decimals, rounded outwards, and never hide that zero is out', () => {
  const ranges = [
    { estimate: 3.257, low: 2.767, high: 3.744 },
    { estimate: -0.3, low: -0.593, high: -0.007 },
    { estimate: 12, low: 4, high: 20 },
  ];
  const decimals = decimalsAlike(ranges);
  expect(decimals).toBe(1);
  expect(ranges.map((one) => differenceAlike(one, decimals))).toEqual([
    { estimate: '+3.3', range: '2.7 to 3.8' },
    { estimate: '−0.3', range: '−0.6 to under 0' },
    { estimate: '+12.0', range: '4.0 to 20.0' },
  ]);
  expect(rangeAlike({ estimate: 0.01, low: 0.004, high: 0.02 }, 1)).toEqual({
    estimate: '0.0',
    range: 'over 0 to 0.1',
  });
});
