/**
 * Names in a file and who mentions them: another short name loses nothing, and what goes takes with it what
 * cannot be without it.
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { checkScenario } from '../../src/scenario/check.ts';
import { idFor, removed, renamed, type Kind } from '../../web/pages/cell/references.ts';
import type { Json, JsonGroup } from '../../web/store/draft.ts';
import { ROOT } from './support.ts';

const demo = (): Json => JSON.parse(readFileSync(join(ROOT, 'scenarios/chair-works.json'), 'utf8')) as Json;
const fine = (draft: Json): string[] => {
  const reading = checkScenario(draft);
  return reading.kind === 'fine' ? [] : reading.faults.map(({ text }) => text);
};
/** Every text in it, keys and values. */
const textsIn = (value: Json): string[] =>
  Array.isArray(value)
    ? value.flatMap(textsIn)
    : typeof value === 'object' && value !== null
      ? Object.entries(value).flatMap(([key, one]) => [key, ...textsIn(one)])
      : typeof value === 'string'
        ? [value]
        : [];

const EVERYTHING: JsonGroup = {
  format: 1,
  name: 'Everything',
  products: { plain: { share: 1 }, fancy: { times: { glue: 9 }, factors: { sand: 1.2 }, skips: ['wax'] } },
  steps: {
    glue: { time: 5, takes: [{ gear: 'clamp', until: 'free' }] },
    cure: { kind: 'wait', time: 30 },
    free: { name: 'unclamp', time: 4 },
    sand: {
      time: 10,
      uses: ['jig', 'sand-bench'],
      benches: 1,
      rework: [
        { to: 'sand', percent: 5 },
        { to: 'glue', percent: 1 },
      ],
    },
    wax: { time: 2 },
    check: { time: 1 },
  },
  gear: { clamp: { count: 2 }, jig: { count: 1 } },
  people: {
    ana: {
      name: 'Ana',
      covers: ['glue', 'free', 'wax'],
      skills: { glue: 4, free: 3, wax: 3, sand: 2 },
      changes: [{ from: '10:00', covers: ['sand'] }],
    },
    bo: { covers: ['sand', 'check'] },
  },
  carryOver: [
    { at: 'sand', units: 2, visits: { glue: 1 } },
    { at: 'glue', state: 'in hand', person: 'ana', product: 'fancy' },
  ],
  holds: [{ before: 'sand', until: '08:00', product: 'fancy' }],
  shift: { overtime: { until: 'empty', who: ['ana', 'bo'] } },
  intake: { kind: 'list', arrivals: [{ at: '06:00', units: 3, product: 'plain' }] },
  limits: { vibration: { sand: 8 } },
  options: {
    more: {
      name: 'More',
      changes: {
        steps: { sand: { benches: 2 } },
        people: { bo: { covers: ['check', 'sand'] } },
        gear: { clamp: { count: 3 } },
      },
    },
  },
  calendar: {
    absences: [{ person: 'ana', from: '2027-03-08' }],
    gearAway: [{ gear: 'clamp', from: '2027-03-08' }],
    deliveries: [{ day: '2027-03-08', units: 2, product: 'fancy' }],
    orders: [{ name: 'school', units: 2, product: 'fancy', day: '2027-03-08', due: '2027-03-09' }],
  },
  nextShifts: [{ name: 'Late', changes: { people: { ana: { covers: ['sand'] } } } }],
};

describe('another short name', () => {
  test.each([
    ['steps', 'sand', 'smooth'],
    ['steps', 'glue', 'bond'],
    ['steps', 'free', 'open-up'],
    ['gear', 'clamp', 'cramp'],
    ['people', 'ana', 'anne'],
    ['products', 'fancy', 'curved'],
  ] as [Kind, string, string][])('of %s %s is carried everywhere it is mentioned', (kind, from, to) => {
    const after = renamed(EVERYTHING, kind, from, to);
    const mentions = (of: string, draft: Json): number => textsIn(draft).filter((text) => text === of).length;
    expect(mentions(from, after)).toBe(0);
    expect(mentions(to, after)).toBe(mentions(from, EVERYTHING));
  });

  test('leaves the benches of a step with the step', () => {
    const { steps } = renamed(EVERYTHING, 'steps', 'sand', 'smooth') as {
      steps: Record<string, { uses?: string[] }>;
    };
    expect(steps['smooth']!.uses).toEqual(['jig', 'smooth-bench']);
  });

  test('keeps the order of the work, and a thing of another kind that is called alike', () => {
    const twin = { ...EVERYTHING, gear: { ...(EVERYTHING['gear'] as JsonGroup), sand: { count: 1 } } };
    const after = renamed(twin, 'steps', 'sand', 'smooth') as { steps: JsonGroup; gear: JsonGroup };
    expect(Object.keys(after.steps)).toEqual(['glue', 'cure', 'free', 'smooth', 'wax', 'check']);
    expect(Object.keys(after.gear)).toEqual(['clamp', 'jig', 'sand']);
  });

  test('given and taken back is the file as it was, for every name of the demo shop, and the file stays fine', () => {
    const before = demo() as JsonGroup;
    const names = (['steps', 'people', 'gear', 'products'] as Kind[]).flatMap((kind) =>
      Object.keys(before[kind] as JsonGroup).map((id) => [kind, id] as const),
    );
    expect(names.length).toBeGreaterThan(15);
    for (const [kind, id] of names) {
      const there = renamed(before, kind, id, 'another-name');
      expect(fine(there)).toEqual([]);
      expect(renamed(there, kind, 'another-name', id)).toEqual(before);
    }
  });

  test('does not touch the draft it is given', () => {
    const before = structuredClone(EVERYTHING);
    renamed(EVERYTHING, 'steps', 'sand', 'smooth');
    removed(EVERYTHING, 'steps', 'sand');
    expect(EVERYTHING).toEqual(before);
  });
});

describe('a thing taken out', () => {
  test.each([
    ['steps', 'sand'],
    ['steps', 'glue'],
    ['gear', 'clamp'],
    ['people', 'ana'],
    ['products', 'fancy'],
  ] as [Kind, string][])('leaves no mention of %s %s', (kind, id) => {
    const { draft, fell } = removed(EVERYTHING, kind, id);
    expect(textsIn(draft).filter((text) => text === id)).toEqual([]);
    expect(fell.length).toBeGreaterThan(0);
  });

  test('says what goes with it, each thing once', () => {
    const { fell } = removed(EVERYTHING, 'steps', 'free');
    expect(fell).toEqual(['the end of what “a step” takes', 'Ana standing there']);
    expect(removed(EVERYTHING, 'people', 'bo').fell).toEqual(['the list of who stays for overtime']);
    expect(removed(EVERYTHING, 'steps', 'sand').fell).toEqual(
      expect.arrayContaining([
        'its vibration',
        'a hold before it',
        'a piece carried over to it',
        'part of “More”',
        'part of “Late”',
      ]),
    );
  });

  test('takes the clamps’ hold with the step they were free after, and keeps the step that took them', () => {
    const { steps } = removed(EVERYTHING, 'steps', 'free').draft as {
      steps: Record<string, { takes?: unknown[] }>;
    };
    expect(steps['glue']!.takes).toEqual([]);
  });

  test('goes quietly where nothing hangs on it', () => {
    const more = { ...EVERYTHING, gear: { ...(EVERYTHING['gear'] as JsonGroup), spare: { count: 1 } } };
    expect(removed(more, 'gear', 'spare').fell).toEqual([]);
  });

  test('of a draft that has lost its shape, or mentions in it that are none, nothing is thrown and nothing else is lost', () => {
    for (const odd of [
      null,
      'text',
      [],
      { steps: 5 },
      { steps: { glue: 'x' }, people: [1] },
      { steps: { glue: { takes: 'no', rework: [3] } }, carryOver: [7] },
    ] as Json[])
      expect(removed(odd, 'steps', 'none').draft).toEqual(odd);
  });
});

describe('a short name made from words', () => {
  test.each([
    ['Glue & clamp', [], 'glue-clamp'],
    ['  Sand 2 ', [], 'sand-2'],
    ['Überzug', [], 'uberzug'],
    ['3rd check', [], 'rd-check'],
    ['***', [], 'step'],
    ['constructor', [], 'step'],
    ['Sand', ['sand'], 'sand-2'],
    ['Sand', ['sand', 'sand-2'], 'sand-3'],
    ['x'.repeat(60), [], 'x'.repeat(34)],
  ])('%s beside %j is %s', (words, taken, id) => {
    expect(idFor(words, taken, 'step')).toBe(id);
    expect(id).toMatch(/^[a-z][a-z0-9-]{0,39}$/);
  });
});
