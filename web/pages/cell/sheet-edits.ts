/** What a tap on the sheet of people by posts changes in the file. */
import { tapped } from '../../../src/scenario/own/own-cell.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import type { CellStore } from '../../store/cell-store.ts';
import type { Json, Place } from '../../store/draft.ts';
import { benchesOf, handsSteps, stepName, withLevel } from './cell-data.ts';

/** Who can, and no more is said: alone. */
const ALONE = 3;

const posts = (scenario: Scenario): string[] => handsSteps(scenario).map(([id]) => id);

/** Where somebody stands, first choice first. */
export function coversOf(scenario: Scenario, id: string): string[] {
  const { covers, skills } = scenario.people[id]!;
  return covers ?? posts(scenario).filter((post) => Object.hasOwn(skills ?? {}, post));
}

/** 0: cannot. A file that says nothing of skills has everybody do alone what they stand at. */
export function levelOf(scenario: Scenario, id: string, post: string): number {
  const { skills } = scenario.people[id]!;
  if (skills === undefined) return coversOf(scenario, id).includes(post) ? ALONE : 0;
  const skill = skills[post];
  return skill === undefined ? 0 : typeof skill === 'number' ? skill : (skill.level ?? ALONE);
}

const nameOf = (scenario: Scenario, id: string): string => scenario.people[id]!.name ?? id;

/** The next place for a post, see `tapped`. */
export function tapChoice(store: CellStore, scenario: Scenario, id: string, post: string): void {
  const order = Object.keys(scenario.steps);
  const places = tapped(
    coversOf(scenario, id).map((one) => order.indexOf(one)),
    order.indexOf(post),
  );
  keep(
    store,
    scenario,
    id,
    places.map((one) => order[one]!),
    post,
  );
}

/** At this place of the choices, 1 the first; 0: nowhere. */
export function withPlace(
  store: CellStore,
  scenario: Scenario,
  id: string,
  post: string,
  place: number,
): void {
  const others = coversOf(scenario, id).filter((one) => one !== post);
  const at = Math.min(place, others.length + 1);
  keep(
    store,
    scenario,
    id,
    place === 0 ? others : [...others.slice(0, at - 1), post, ...others.slice(at - 1)],
    post,
  );
}

function keep(store: CellStore, scenario: Scenario, id: string, covers: string[], post: string): void {
  const person = scenario.people[id]!;
  const at = covers.indexOf(post);
  const said = `${nameOf(scenario, id)}: ${at < 0 ? 'no longer at' : `choice ${at + 1} is`} ${stepName(scenario, post)}`;
  const wanted: [Place, Json | undefined][] = [[['people', id, 'covers'], covers]];
  if (at >= 0 && person.skills !== undefined && !Object.hasOwn(person.skills, post))
    wanted.push([['people', id, 'skills', post], ALONE]);
  if (at < 0 && person.changes?.some((change) => change.covers.includes(post)) === true)
    wanted.push([
      ['people', id, 'changes'],
      person.changes.map((change) => ({
        ...change,
        covers: change.covers.filter((one) => one !== post),
      })) as Json,
    ]);
  store.changeMany(said, wanted);
}

/** The next level, 4 then none; where somebody stands, never none: that is said by where they stand. */
export function tapSkill(
  store: CellStore,
  scenario: Scenario,
  id: string,
  post: string,
  wanted?: number,
): void {
  const covers = coversOf(scenario, id);
  const stands = covers.includes(post);
  const now = levelOf(scenario, id, post);
  const next = wanted ?? (now >= 4 ? 0 : now + 1);
  const level = next === 0 && stands ? 1 : next;
  const { skills } = scenario.people[id]!;
  // Levels that stood for themselves are written down with the first that differs.
  const before = skills ?? Object.fromEntries(covers.map((one) => [one, ALONE]));
  const others = Object.entries(before).filter(([one]) => one !== post || level > 0);
  const written = {
    ...Object.fromEntries(others),
    ...(level === 0 ? {} : { [post]: withLevel(skills?.[post], level) }),
  };
  store.change(
    `${nameOf(scenario, id)}: level ${level} at ${stepName(scenario, post)}`,
    ['people', id, 'skills'],
    written as Json,
  );
}

/** Posts where more stand first than there are benches. */
export function benchesAlike(scenario: Scenario): { post: string; people: number }[] {
  return handsSteps(scenario).flatMap(([post, step]) => {
    const people = Object.keys(scenario.people).filter((id) => coversOf(scenario, id)[0] === post).length;
    const benches = benchesOf(step);
    return benches > 0 && people > benches && step.people !== 2 ? [{ post, people }] : [];
  });
}
