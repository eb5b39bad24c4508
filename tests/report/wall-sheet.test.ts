import { describe, expect, test } from 'vitest';
import { crewDayPicture } from '../../src/charts/index.ts';
import { PRINT_WIDTH, roomLeft } from '../../src/document/document-html.ts';
import { toText } from '../../src/document/document-text.ts';
import { crewDayOf } from '../../src/report/crew-day.ts';
import { ARMS_LENGTH_SIZE, wallHtml, wallPage } from '../../src/report/wall-sheet.ts';
import { cautionsFor } from '../../src/scenario/cautions.ts';
import type { CrewSheet } from '../../src/staffing/sheet.ts';
import { crewSheet } from '../support/crews.ts';
import { shipped, shop, SHOPS } from '../support/shops.ts';

const ANSWER = [
  'The 19 pieces due are made in 93 shifts of a hundred (91 to 95), sure enough for the 90% asked for.',
  'Nine shifts in ten make 19, half make 22, one in ten makes 25.',
];
const wallOf = (name: (typeof SHOPS)[number], count: number): Parameters<typeof wallPage>[0] => ({
  sheet: crewSheet(shop(name), count),
  day: 'Tuesday 3 March 2026',
  answer: ANSWER,
  cautions: cautionsFor(shop(name)),
});

const sizesOf = (svg: string): number[] =>
  [...svg.matchAll(/font-size="([\d.]+)"/g)].map((found) => Number(found[1]));

describe.each(SHOPS)('the sheet for the wall of %s', (name) => {
  test.each([6, 12, 20])('takes one sheet for %d people, and is read at arm’s length', (count) => {
    for (const paper of ['A4', 'Letter', undefined] as const) {
      const { page, size } = wallPage(wallOf(name, count), paper);
      expect(roomLeft(page, size, paper)).toBeGreaterThan(0);
      expect(size).toBeGreaterThanOrEqual(ARMS_LENGTH_SIZE);
      const drawn = page.blocks.find((block) => block.kind === 'picture')!;
      // Drawn in points and printed at that width, so a size in it is points on paper.
      const width = Number(/ width="(\d+)"/.exec(drawn.svg)![1]);
      expect((width * 25.4) / 72).toBeCloseTo(PRINT_WIDTH, 0);
      expect(Math.min(...sizesOf(drawn.svg))).toBeGreaterThanOrEqual(ARMS_LENGTH_SIZE);
      expect(drawn.svg).not.toMatch(/…|NaN/);
    }
  });

  test('has everybody once, in the order of the file, with every post', () => {
    const { sheet } = wallOf(name, 12);
    const { lanes } = crewDayOf(sheet);
    expect(lanes.map((lane) => lane.name)).toEqual(sheet.people.map((person) => person.name));
    for (const [at, lane] of lanes.entries())
      for (const [i, post] of sheet.people[at]!.posts.entries())
        for (const step of post.steps) expect(lane.posts[i]!.words).toContain(step.name);
  });
});

test('12 points are what 16 minutes of arc at 60 cm ask of the narrowest capitals', () => {
  // ISO 9241-3: no less than 16 minutes of arc; capitals of Times: 662 thousandths of the size.
  const capitals = ARMS_LENGTH_SIZE * (25.4 / 72) * 0.662;
  const asked = 600 * Math.tan(((16 / 60) * Math.PI) / 180);
  expect(capitals).toBeGreaterThanOrEqual(asked);
  expect((capitals * (ARMS_LENGTH_SIZE - 0.5)) / ARMS_LENGTH_SIZE).toBeLessThan(asked);
});

test('a crew too large for one sheet runs on to another and gets no smaller', () => {
  const { page, size } = wallPage(wallOf('frame-works', 40), 'A4');
  expect(size).toBe(ARMS_LENGTH_SIZE);
  expect(roomLeft(page, size, 'A4')).toBeLessThan(0);
});

describe('the picture of the day', () => {
  const sheet = crewSheet(shop('stair-parts'), 9);
  const later = (base: CrewSheet): CrewSheet => ({
    ...base,
    people: base.people.map((person, at) => ({
      ...person,
      breaks: at % 2 === 0 ? person.breaks : person.breaks.map((one) => ({ ...one, from: one.from + 20 })),
    })),
  });

  test('says common breaks once, and marks who keeps which where they differ', () => {
    const same = crewDayOf(sheet);
    expect(same.once).toEqual(['Breaks: 09:15 (15 min) and 12:00 meal break (30 min).']);
    expect(new Set(same.lanes.map((lane) => lane.mark))).toEqual(new Set(['']));
    const apart = crewDayOf(later(sheet));
    expect(apart.once).toEqual([
      'Breaks A: 09:15 (15 min) and 12:00 meal break (30 min).',
      'Breaks B: 09:35 (15 min) and 12:20 meal break (30 min).',
    ]);
    expect(apart.lanes.slice(0, 4).map((lane) => lane.mark)).toEqual(['A', 'B', 'A', 'B']);
  });

  test('somebody who comes after a break keeps the breaks of the others all the same', () => {
    const [first, ...others] = sheet.people;
    const half = {
      ...first!,
      from: 180,
      posts: [{ ...first!.posts[0]!, from: 180 }],
      breaks: first!.breaks.slice(1),
    };
    const day = crewDayOf({ ...sheet, people: [half, ...others] });
    expect(day.once).toHaveLength(1);
    expect(day.lanes[0]!.posts[0]!.words).toMatch(/^10:00 /);
  });

  test('draws work thick, leaves breaks out, dots time away and opens overtime', () => {
    const svg = crewDayPicture(crewDayOf(sheet), { width: 700, id: 'p' });
    const works = [...svg.matchAll(/<rect [^>]*class="fill-ink"/g)];
    // Two breaks make three stretches a lane; the one who is away for a while has one more.
    expect(works).toHaveLength(9 * 3 + 1);
    expect(svg.match(/stroke-dasharray="2 4"/g)).toHaveLength(1);
    expect(svg.match(/class="fill-paper stroke-ink"/g)).toHaveLength(9);
    expect(svg.replaceAll('\u00a0', ' ')).toContain('(away 10:00 to 10:45)');
  });

  test('draws when a step is not begun any more, and does not say it again below', () => {
    const frames = crewSheet(shop('frame-works'), 5);
    expect(crewDayOf(frames).lasts).toEqual([{ at: 470, words: 'no lay up after 14:20' }]);
    const text = toText(wallPage({ sheet: frames, answer: [], cautions: [] }).page);
    expect(text).not.toContain('No lay up is begun after');
  });

  test('needs no color: everything in it is ink, paper or a hairline', () => {
    const html = wallHtml({ sheet: crewSheet(shipped('chair-works'), 6), answer: ANSWER, cautions: [] });
    expect(html).not.toMatch(/fill-(glue-up|cure|waiting|unclamping|other)/);
  });
});
