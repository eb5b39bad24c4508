/** What the page reads off a draft. A draft may be wrong; here it only has to have the shape of a file. */
import { compileTime } from '../../../src/duration/compile.ts';
import type { Meaning } from '../../../src/charts/index.ts';
import type { Time } from '../../../src/duration/time.ts';
import type { Person, Product, Scenario, Step } from '../../../src/scenario/schema.ts';
import type { Json } from '../../store/draft.ts';

const isGroup = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
const groups = (value: unknown): boolean =>
  value === undefined || (isGroup(value) && Object.values(value).every(isGroup));

/**
 * The draft as a scenario, where it is enough of one to be drawn: steps, people, gear and products by name.
 */
export function asScenario(draft: Json): Scenario | null {
  if (!isGroup(draft) || !isGroup(draft['steps']) || !isGroup(draft['people'])) return null;
  const fine =
    groups(draft['steps']) &&
    groups(draft['people']) &&
    groups(draft['gear']) &&
    groups(draft['products']) &&
    (draft['shift'] === undefined || isGroup(draft['shift']));
  return fine ? (draft as unknown as Scenario) : null;
}

/** Mean minutes; 0 where the numbers make no time yet. */
export function minutesOf(time: Time | undefined): number {
  try {
    const mean = time === undefined ? 0 : compileTime(time).mean;
    return Number.isFinite(mean) ? mean : 0;
  } catch {
    return 0;
  }
}

export const stepName = (scenario: Scenario, id: string): string => scenario.steps[id]?.name ?? id;

type Skill = NonNullable<Person['skills']>[string];
export const withLevel = (skill: Skill | undefined, level: number): Skill =>
  typeof skill === 'object' ? { ...skill, level } : level;

export const isWait = (step: Step): boolean => step.kind === 'wait';
export const benchesOf = (step: Step): number =>
  isWait(step) ? 0 : (step.benches ?? (step.uses === undefined ? 1 : 0));
export const handsSteps = (scenario: Scenario): [string, Step][] =>
  Object.entries(scenario.steps).filter(([, step]) => !isWait(step));

/** Minutes of a step over the mix of products, the allowance in. */
export function mixMinutes(scenario: Scenario, id: string): number {
  const step = scenario.steps[id]!;
  const mix: Product[] = Object.values(scenario.products ?? { piece: {} });
  const total = mix.reduce((sum, product) => sum + (product.share ?? 1), 0);
  const one = (product: Product): number =>
    product.skips?.includes(id) === true
      ? 0
      : minutesOf(product.times?.[id] ?? step.time) * (product.factors?.[id] ?? 1);
  const mean =
    total > 0
      ? mix.reduce((sum, product) => sum + (product.share ?? 1) * one(product), 0) / total
      : minutesOf(step.time);
  return mean * (isWait(step) ? 1 : (scenario.shift?.allowance ?? 1));
}

/** What a stretch at a step means: the colour it has everywhere. */
export function meaningOf(scenario: Scenario, id: string): Meaning {
  const step = scenario.steps[id]!;
  if (isWait(step)) return 'cure';
  if ((step.takes ?? []).length > 0) return 'glue-up';
  return Object.values(scenario.steps).some((other) => (other.takes ?? []).some((take) => take.until === id))
    ? 'unclamping'
    : 'other';
}

export interface Stander {
  id: string;
  name: string;
  level: number | null;
}

/** Who stands at a step at some time of the day, in crew order. */
export function standersAt(scenario: Scenario, step: string): Stander[] {
  return Object.entries(scenario.people).flatMap(([id, person]) => {
    const skill = person.skills?.[step];
    const level = skill === undefined ? null : typeof skill === 'number' ? skill : (skill.level ?? 3);
    const covers =
      person.covers ??
      handsSteps(scenario)
        .map(([one]) => one)
        .filter((one) => Object.hasOwn(person.skills ?? {}, one));
    const there =
      covers.includes(step) || (person.changes ?? []).some((change) => change.covers.includes(step));
    return there ? [{ id, name: person.name ?? id, level }] : [];
  });
}

/** A spot on the page that can be changed: what kind of thing, and which. */
export interface Spot {
  kind: string;
  id: string;
}

export const spotKey = ({ kind, id }: Spot): string => `${kind}/${id}`;

/** Where a place in the file is changed on the page. */
export function spotOf(place: (string | number)[]): Spot {
  const [first, second] = [String(place[0] ?? ''), String(place[1] ?? '')];
  switch (first) {
    case 'steps':
    case 'people':
    case 'gear':
    case 'products':
      return { kind: first, id: second };
    case 'shift':
    case 'intake':
    case 'carryOver':
    case 'holds':
    case 'outRack':
    case 'money':
    case 'limits':
    case 'study':
    case 'nextShifts':
    case 'calendar':
    case 'options':
    case 'skillLevels':
      return { kind: first, id: '' };
    case 'pay':
      return { kind: 'money', id: '' };
    case 'name':
    case 'about':
    case 'seed':
    case 'invented':
      return { kind: 'about', id: '' };
    default:
      return { kind: 'file', id: '' };
  }
}
