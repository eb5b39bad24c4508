import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkScenario, readScenario, type Fault } from '../../src/scenario/check.ts';
import type { Place } from '../../src/scenario/reading/fault.ts';
import { shiftsOf } from '../../src/scenario/options.ts';
import { holds } from '../support/holds.ts';

const demo = JSON.parse(
  readFileSync(new URL('../../scenarios/chair-works.json', import.meta.url), 'utf8'),
) as Record<string, unknown>;

/** Every place of a JSON value. */
function places(value: unknown, place: Place = []): Place[] {
  if (typeof value !== 'object' || value === null) return [place];
  const keys: Place = Array.isArray(value) ? [...value.keys()] : Object.keys(value);
  return [
    place,
    ...keys.flatMap((key) => places((value as Record<string | number, unknown>)[key], [...place, key])),
  ];
}
const ALL = places(demo).filter((place) => place.length > 0);

/** The demo file with the value at a place replaced, or taken away where it is undefined. */
function changed(place: Place, value: unknown): unknown {
  const copy = structuredClone(demo);
  const group = place
    .slice(0, -1)
    .reduce<Record<string | number, unknown>>((at, key) => at[key] as Record<string | number, unknown>, copy);
  if (value === undefined) Reflect.deleteProperty(group, place.at(-1)!);
  else group[place.at(-1)!] = value;
  return copy;
}

/** How much of a place of a fault is really in the file: at least everything but its last key or two. */
function depthInFile(file: unknown, place: Place): number {
  let here = file;
  for (const [i, key] of place.entries()) {
    if (typeof here !== 'object' || here === null || !Object.hasOwn(here, key)) return i;
    here = (here as Record<string | number, unknown>)[key];
  }
  return place.length;
}

const complete = (fault: Fault): boolean =>
  [fault.found, fault.allowed, fault.remedy].every((part) => part.length > 0 && fault.text.includes(part)) &&
  fault.text.length < 1500;

const oddValues = fc.oneof(
  fc.jsonValue({ maxDepth: 3 }),
  fc.constantFrom(
    undefined,
    null,
    -1,
    0,
    1e9,
    0.5,
    '',
    '25:00',
    '14:30',
    '03:00',
    'glue',
    'Glue',
    'check',
    'cure',
    [],
    {},
    true,
    { mean: 0, cv: 1 },
    { quick: 3, usual: 2, slow: 1 },
  ),
);

describe('whatever it is given', () => {
  it('the check says fine or wrong, and never throws', () => {
    holds(
      fc.property(
        fc.oneof(fc.jsonValue(), fc.anything({ withBigInt: true, withDate: true, withMap: true })),
        (value) => {
          const reading = checkScenario(value);
          expect(reading.kind).toBe('wrong');
          if (reading.kind === 'wrong') expect(reading.faults.every(complete)).toBe(true);
        },
      ),
      { numRuns: 1000 },
    );
  });

  it('any text is read or refused in words', () => {
    holds(
      fc.property(fc.oneof(fc.string(), fc.json()), (text) => {
        const reading = readScenario(text);
        expect(reading.kind === 'wrong' && reading.faults.length > 0 && reading.faults.every(complete)).toBe(
          true,
        );
      }),
      { numRuns: 1000 },
    );
  });
});

describe('one change anywhere in the demo file', () => {
  it('gives faults that stand in the file, or a file whose shifts can be resolved', () => {
    let refused = 0;
    holds(
      fc.property(fc.constantFrom(...ALL), oddValues, (place, value) => {
        const file = changed(place, value);
        const reading = checkScenario(file);
        if (reading.kind === 'fine') {
          for (const shift of shiftsOf(reading.scenario)) expect(Number.isFinite(shift.length)).toBe(true);
          return;
        }
        refused += 1;
        for (const fault of reading.faults) {
          expect(complete(fault), fault.text).toBe(true);
          // An option's fault stands where its change leads, of which the file of the option may hold only
          // the beginning.
          const least =
            fault.place[0] === 'options' ? Math.min(3, fault.place.length - 1) : fault.place.length - 2;
          expect(depthInFile(file, fault.place), fault.text).toBeGreaterThanOrEqual(Math.max(0, least));
        }
      }),
      { numRuns: 1500 },
    );
    expect(refused).toBeGreaterThan(500);
  });

  it('of a name or number into nonsense is told at that very place', () => {
    const plain = ALL.filter(
      (place) =>
        place[0] !== 'options' &&
        place[0] !== 'about' &&
        place[0] !== 'name' &&
        place.at(-1) !== 'name' &&
        place.at(-1) !== 'cause' &&
        place.at(-1) !== 'currency',
    );
    for (const place of plain) {
      const reading = checkScenario(changed(place, '§§'));
      expect(reading.kind, place.join('.')).toBe('wrong');
      if (reading.kind === 'wrong') expect(reading.faults.map((fault) => fault.place)).toContainEqual(place);
    }
  });
});
