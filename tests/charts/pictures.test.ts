import { describe, expect, test } from 'vitest';
import * as pictures from '../../src/charts/index.ts';
import * as samples from '../../web/gallery/samples.ts';

const DRAWN: [string, (size: pictures.Size) => string, pictures.Table][] = [
  [
    'comparison',
    (size) => pictures.comparisonPicture(samples.comparison, size),
    pictures.comparisonTable(samples.comparison),
  ],
  [
    'lines through the day',
    (size) => pictures.dayLinesPicture(samples.dayLines, size),
    pictures.dayLinesTable(samples.dayLines),
  ],
  ['lanes', (size) => pictures.lanesPicture(samples.lanes, size), pictures.lanesTable(samples.lanes)],
  [
    'minutes',
    (size) => pictures.minutesPicture(samples.minutes, size),
    pictures.minutesTable(samples.minutes),
  ],
  [
    'staircase',
    (size) => pictures.staircasePicture(samples.staircase, size),
    pictures.staircaseTable(samples.staircase),
  ],
  ['fan', (size) => pictures.fanPicture(samples.fan, size), pictures.fanTable(samples.fan)],
  ['limits', (size) => pictures.limitsPicture(samples.limits, size), pictures.limitsTable(samples.limits)],
  [
    'histogram',
    (size) => pictures.histogramPicture(samples.histogram, size),
    pictures.histogramTable(samples.histogram),
  ],
  ['weeks', (size) => pictures.weeksPicture(samples.weeks, size), pictures.weeksTable(samples.weeks)],
];

/** Texts with where they begin and end, as far as an estimate of their width can tell. */
function texts(svg: string): { x: number; text: string }[] {
  return [...svg.matchAll(/<text x="([-\d.]+)"[^>]*>([^<]*)<\/text>/g)].map((found) => ({
    x: Number(found[1]),
    text: found[2]!,
  }));
}

describe.each(DRAWN)('the picture of %s', (_name, draw, table) => {
  test.each([340, 520, 820, 1100])('fits a width of %d, with every figure a number', (width) => {
    const svg = draw({ width, id: 'p' });
    expect(svg).toMatch(new RegExp(`viewBox="0 0 ${width} \\d+"`));
    expect(svg).not.toMatch(/NaN|Infinity|undefined|e-\d/);
    const xs = [...svg.matchAll(/ x="([-\d.]+)"/g)].map((found) => Number(found[1]));
    expect(Math.min(...xs)).toBeGreaterThanOrEqual(0);
    expect(Math.max(...xs)).toBeLessThanOrEqual(width);
  });

  test('has a title, a description and a foot that says the unit', () => {
    const svg = draw({ width: 700, id: 'p' });
    expect(svg).toContain('aria-labelledby="p-title p-desc"');
    expect(svg).toMatch(/<title id="p-title">[^<]+<\/title><desc id="p-desc">[^<]+<\/desc>/);
    expect(texts(svg).length).toBeGreaterThan(3);
  });

  test('is the same twice', () => {
    expect(draw({ width: 700, id: 'p' })).toBe(draw({ width: 700, id: 'p' }));
  });

  test('has a table beside it, each row as long as its head', () => {
    expect(table.rows.length).toBeGreaterThan(0);
    for (const row of table.rows) expect(row).toHaveLength(table.head.length);
  });
});

test('a name from a stranger is text in a picture, whatever stands in it', () => {
  const name = '</title><script>alert(1)</script> "onload="x" &amp; \u0000\ud800 ]]>';
  const rows = [{ name, values: [1, 2], mean: 1.5, low: 1, high: 2, words: name }];
  const svg = pictures.comparisonPicture(
    { title: name, description: name, rows, target: null, foot: { unit: 'units', seed: name, shifts: 2 } },
    { width: 700, id: 'p' },
  );
  expect(svg).not.toContain('<script');
  expect(svg).toContain('&lt;/title&gt;&lt;script&gt;');
  // eslint-disable-next-line no-control-regex
  expect(svg).not.toMatch(/[\u0000\ud800]/);
});

test('twenty dots stand for all shifts: so many of them reach the target as shifts in twenty do', () => {
  const values = Array.from({ length: 1000 }, (_, i) => (i < 250 ? 22 : i < 900 ? 20 : 18));
  const twenty = pictures.twentyShifts(values);
  expect(twenty).toHaveLength(20);
  expect(twenty.filter((value) => value >= 22)).toHaveLength(5);
  expect(twenty.filter((value) => value < 20)).toHaveLength(2);
});

test('options without any shifts yet are drawn by name, with no dot and no bar', () => {
  const rows = [{ name: 'new', values: [], mean: NaN, low: NaN, high: NaN, words: 'first shifts running' }];
  const svg = pictures.comparisonPicture(
    { title: 't', description: 'd', rows, target: 22, foot: { unit: 'good units' } },
    { width: 700, id: 'p' },
  );
  expect(svg).not.toMatch(/<circle|NaN/);
  expect(svg).toContain('first shifts running');
});

test('a strip whose labels would touch says them in lines below, none of them lost', () => {
  const narrow = pictures.minutesPicture(samples.minutes, { width: 340, id: 'p' });
  for (const word of ['glue-up 20 %', 'cure 57 %', 'waiting for hands 12 %', 'unclamping 9 %'])
    expect(narrow).toContain(word);
});

test('every meaning has a hatch that is unlike the others without its colour', () => {
  const svg = pictures.lanesPicture(samples.lanes, { width: 700, id: 'p' });
  const hatches = [...svg.matchAll(/<pattern id="p-[^"]+"[^>]*>(.*?)<\/pattern>/g)].map((found) =>
    found[1]!.replace(/<rect[^>]*>/, '').replace(/ class="[^"]*"| fill="[^"]*"| stroke="[^"]*"/g, ''),
  );
  expect(hatches).toHaveLength(pictures.MEANINGS.length);
  expect(new Set(hatches).size).toBe(hatches.length);
});

test('a small picture of minutes, mark by mark', () => {
  const svg = pictures.minutesPicture(
    {
      title: 'Minutes',
      description: 'Half cure, half waiting.',
      strips: [
        {
          name: 'set 1',
          parts: [
            { meaning: 'cure', word: 'cure', minutes: 30 },
            { meaning: 'waiting', word: 'waiting for hands', minutes: 30 },
          ],
        },
      ],
      foot: { unit: 'share of an hour', shifts: 30, seed: 'x' },
    },
    { width: 404, id: 'p' },
  );
  expect(svg.replace(/<defs>.*<\/defs>/, '').replaceAll('><', '>\n<')).toMatchInlineSnapshot(`
    "<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 404 97" width="404" height="97" role="img" aria-labelledby="p-title p-desc" class="picture" font-family="&#39;Public Sans&#39;, &#39;Segoe UI&#39;, Verdana, sans-serif">
    <title id="p-title">Minutes</title>
    <desc id="p-desc">Half cure, half waiting.</desc>
    <g transform="translate(0 0)">
    <text x="2" y="15" class="fill-ink" fill="#211e1a" font-size="15" font-weight="600">set 1</text>
    <rect x="2.5" y="22" width="199" height="24" fill="url(#p-cure)">
    <title>cure: 30.0 min</title>
    </rect>
    <rect x="202.5" y="22" width="199" height="24" fill="url(#p-waiting)">
    <title>waiting for hands: 30.0 min</title>
    </rect>
    <text x="2" y="61" class="fill-muted" fill="#655f56" font-size="13">cure 50 %</text>
    <text x="202" y="61" class="fill-waiting" fill="#c2301a" font-size="13" font-weight="600">waiting for hands 50 %</text>
    </g>
    <text x="2" y="89" class="fill-muted" fill="#655f56" font-size="13">Share of an hour. From 30 shifts, seed “x”.</text>
    </svg>"
  `);
});

test('a small staircase, mark by mark', () => {
  const svg = pictures.staircasePicture(
    {
      title: 'From 10 to 8',
      description: 'Waiting takes two.',
      treads: [
        { value: 10, word: 'spreadsheet' },
        { value: 8, word: 'waiting for hands', meaning: 'waiting' },
      ],
      foot: { unit: 'good units a shift' },
    },
    { width: 484, id: 'p' },
  );
  expect(svg.replaceAll('><', '>\n<')).toMatchInlineSnapshot(`
    "<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 484 277" width="484" height="277" role="img" aria-labelledby="p-title p-desc" class="picture" font-family="&#39;Public Sans&#39;, &#39;Segoe UI&#39;, Verdana, sans-serif">
    <title id="p-title">From 10 to 8</title>
    <desc id="p-desc">Waiting takes two.</desc>
    <defs>
    <pattern id="p-glue-up" width="8" height="8" patternUnits="userSpaceOnUse">
    <rect width="8" height="8" class="ground fill-glue-up" fill="#0b6b66"/>
    <path d="M-2 2L2 -2M0 8L8 0M6 10L10 6" class="hatch stroke-paper" fill="none" stroke="#fbf8f3" stroke-width="1.4"/>
    </pattern>
    <pattern id="p-cure" width="8" height="8" patternUnits="userSpaceOnUse">
    <rect width="8" height="8" class="ground fill-cure" fill="#b9860f"/>
    <circle cx="4" cy="4" r="1.3" class="hatch fill-paper" fill="#fbf8f3"/>
    </pattern>
    <pattern id="p-waiting" width="8" height="8" patternUnits="userSpaceOnUse">
    <rect width="8" height="8" class="ground fill-waiting" fill="#c2301a"/>
    <path d="M0 0L8 8M0 8L8 0" class="hatch stroke-paper" fill="none" stroke="#fbf8f3" stroke-width="1"/>
    </pattern>
    <pattern id="p-unclamping" width="8" height="8" patternUnits="userSpaceOnUse">
    <rect width="8" height="8" class="ground fill-unclamping" fill="#3d3a94"/>
    <path d="M2 0V8M6 0V8" class="hatch stroke-paper" fill="none" stroke="#fbf8f3" stroke-width="1.8"/>
    </pattern>
    <pattern id="p-other" width="8" height="8" patternUnits="userSpaceOnUse">
    <rect width="8" height="8" class="ground fill-other" fill="#8a8378"/>
    <path d="M0 4H8" class="hatch stroke-paper" fill="none" stroke="#fbf8f3" stroke-width="1.4"/>
    </pattern>
    <pattern id="p-free" width="8" height="8" patternUnits="userSpaceOnUse">
    <rect width="8" height="8" class="ground fill-paper" fill="#fbf8f3"/>
    </pattern>
    <pattern id="p-off" width="8" height="8" patternUnits="userSpaceOnUse">
    <rect width="8" height="8" class="ground fill-paper" fill="#fbf8f3"/>
    <path d="M4 0V8" class="hatch stroke-muted" fill="none" stroke="#655f56" stroke-width="1"/>
    </pattern>
    </defs>
    <path d="M2 34H242L242 196L234 190L226 196L218 190L210 196L202 190L194 196L186 190L178 196L170 190L162 196L154 190L146 196L138 190L130 196L122 190L114 196L106 190L98 196L90 190L82 196L74 190L66 196L58 190L50 196L42 190L34 196L26 190L18 196L10 190L2 196Z" class="fill-shade" fill="#f1ece3"/>
    <line x1="2" y1="34" x2="242" y2="34" class="stroke-ink" stroke="#211e1a" stroke-width="4"/>
    <text x="10" y="24" class="fill-ink" fill="#211e1a" font-size="22" font-weight="700">10.0</text>
    <text x="10" y="216" class="fill-muted" fill="#655f56" font-size="14">spreadsheet</text>
    <path d="M242 130H482L482 196L474 190L466 196L458 190L450 196L442 190L434 196L426 190L418 196L410 190L402 196L394 190L386 196L378 190L370 196L362 190L354 196L346 190L338 196L330 190L322 196L314 190L306 196L298 190L290 196L282 190L274 196L266 190L258 196L250 190L242 196Z" class="fill-shade" fill="#f1ece3"/>
    <rect x="242" y="34" width="240" height="96" fill="url(#p-waiting)"/>
    <line x1="242" y1="34" x2="482" y2="34" class="stroke-muted" stroke="#655f56" stroke-width="1" stroke-dasharray="3 3"/>
    <line x1="242" x2="242" y1="34" y2="130" class="stroke-waiting" stroke="#c2301a" stroke-width="1.4"/>
    <line x1="242" y1="130" x2="482" y2="130" class="stroke-ink" stroke="#211e1a" stroke-width="4"/>
    <text x="250" y="24" class="fill-ink" fill="#211e1a" font-size="22" font-weight="700">8.0</text>
    <text x="250" y="216" class="fill-waiting" fill="#c2301a" font-size="14">−2.0</text>
    <text x="250" y="234.2" class="fill-waiting" fill="#c2301a" font-size="14">waiting for hands</text>
    <text x="2" y="269.4" class="fill-muted" fill="#655f56" font-size="13">Good units a shift. The scale begins at 7.</text>
    </svg>"
  `);
});

test('the times of a very long list are drawn like those of a short one', () => {
  const values = Array.from({ length: 150_000 }, (_, i) => 5 + (i % 100) / 10);
  const svg = pictures.histogramPicture(
    { ...samples.histogram, values, curves: [] },
    { width: 700, id: 'p' },
  );
  const counts = [...svg.matchAll(/<title>(\d+) from/g)].map((found) => Number(found[1]));
  expect(counts.reduce((sum, count) => sum + count, 0)).toBe(150_000);
});
