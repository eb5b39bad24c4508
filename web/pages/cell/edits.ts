/** Putting things in and out, giving them another name, and their order: each one step back for undo. */
import type { Person, Scenario, Step } from '../../../src/scenario/schema.ts';
import { ask } from '../../parts/dialog.ts';
import { say } from '../../parts/notice.ts';
import type { CellStore } from '../../store/cell-store.ts';
import { same, type Json, type JsonGroup, type Place } from '../../store/draft.ts';
import { asScenario, handsSteps, standersAt } from './cell-data.ts';
import { idFor, removed, renamed, type Kind } from './references.ts';

export const KINDS: Record<Kind, string> = {
  steps: 'step',
  people: 'person',
  gear: 'gear',
  products: 'product',
};
const NEW: Record<Kind, string> = {
  steps: 'new step',
  people: 'New person',
  gear: 'clamp set',
  products: 'new product',
};

const groupOf = (store: CellStore, kind: Kind): JsonGroup => (store.at([kind]) ?? {}) as JsonGroup;
export const nameIn = (store: CellStore, kind: Kind, id: string): string => {
  const name = store.at([kind, id, 'name']);
  return typeof name === 'string' && name !== '' ? name : id;
};

/** Changes the parts of the file that differ, as one step back. */
function apply(store: CellStore, what: string, after: Json): void {
  const [was, is] = [store.draft.get() as JsonGroup, after as JsonGroup];
  const keys = [...new Set([...Object.keys(was), ...Object.keys(is)])];
  store.changeMany(
    what,
    keys
      .filter((key) => was[key] === undefined || is[key] === undefined || !same(was[key], is[key]))
      .map((key): [Place, Json | undefined] => [[key], is[key]]),
  );
}

const withEntry = (group: JsonGroup, id: string, value: Json, after: string | null): JsonGroup => {
  const entries = Object.entries(group);
  const at = after === null ? -1 : entries.findIndex(([key]) => key === after);
  const place = at < 0 ? entries.length : at + 1;
  return Object.fromEntries([...entries.slice(0, place), [id, value], ...entries.slice(place)]);
};

/**
 * Puts in a new thing and returns its short name. A new step is at first done by those at the step beside it,
 * so that the cell still runs.
 */
export function add(store: CellStore, kind: Kind, after: string | null = null): string {
  const group = groupOf(store, kind);
  const scenario = asScenario(store.draft.get());
  const names = new Set(Object.entries(group).map(([id]) => nameIn(store, kind, id)));
  let name = NEW[kind];
  for (let count = 2; names.has(name); count += 1) name = `${NEW[kind]} ${count}`;
  const id = idFor(name, Object.keys(group), `new-${kind}`);
  const wanted: [Place, Json | undefined][] = [];
  if (kind === 'products' && Object.keys(group).length === 0) {
    // The file's one product has no name of its own; once there are two, both are written down.
    wanted.push([[kind], { piece: { name: 'piece' }, [id]: { name } }]);
  } else wanted.push([[kind], withEntry(group, id, made(kind, name, scenario), after)]);
  if (kind === 'steps' && scenario !== null) wanted.push(...standing(scenario, id, after));
  store.changeMany(`one more ${KINDS[kind]}`, wanted);
  return id;
}

function made(kind: Kind, name: string, scenario: Scenario | null): Json {
  switch (kind) {
    case 'steps':
      return { name, time: { quick: 4, usual: 5, slow: 7 } } satisfies Step;
    case 'gear':
      return { name, count: 1 };
    case 'products':
      return { name };
    case 'people': {
      const pay = Object.values(scenario?.people ?? {}).at(-1)?.pay;
      const covers = scenario === null ? [] : handsSteps(scenario).map(([step]) => step);
      return { name, covers, ...(pay === undefined ? {} : { pay }) } satisfies Person;
    }
  }
}

function standing(scenario: Scenario, id: string, after: string | null): [Place, Json | undefined][] {
  const beside = after ?? handsSteps(scenario).at(-1)?.[0] ?? null;
  const there = beside === null ? [] : standersAt(scenario, beside);
  const who = there.length > 0 ? there.map((one) => one.id) : Object.keys(scenario.people).slice(0, 1);
  return who.flatMap((one): [Place, Json | undefined][] => {
    const person = scenario.people[one]!;
    const covers =
      person.covers ??
      handsSteps(scenario)
        .map(([step]) => step)
        .filter((step) => Object.hasOwn(person.skills ?? {}, step));
    return [
      [
        ['people', one, 'covers'],
        [...covers, id],
      ],
      ...(person.skills === undefined ? [] : [[['people', one, 'skills', id], 3] as [Place, Json]]),
    ];
  });
}

/**
 * Another name to be seen; its short name in the file follows where it was made from the old one. Returns the
 * short name it has then.
 */
export function rename(store: CellStore, kind: Kind, id: string, name: string): string {
  const group = groupOf(store, kind);
  const old = nameIn(store, kind, id);
  const others = Object.keys(group).filter((one) => one !== id);
  const follows = name !== '' && (id === idFor(old, others, id) || id.startsWith('new-'));
  const to = follows ? idFor(name, others, id) : id;
  const inside = group[id] as JsonGroup;
  const { name: _name, ...rest } = inside;
  const draft = store.draft.get() as JsonGroup;
  const named = {
    ...draft,
    [kind]: Object.fromEntries(
      Object.entries(group).map(([key, value]) => [
        key,
        key === id ? (name === '' ? rest : { name, ...rest }) : value,
      ]),
    ),
  };
  apply(
    store,
    `${old} is now ${name === '' ? id : `“${name}”`}`,
    to === id ? named : renamed(named, kind, id, to),
  );
  return to;
}

/** Another short name. Returns what is wrong with it, or null when it was done. */
export function renameId(store: CellStore, kind: Kind, id: string, to: string): string | null {
  if (to === id) return null;
  if (Object.hasOwn(groupOf(store, kind), to)) return `“${to}” is taken already.`;
  if (!/^(?!constructor$)[a-z][a-z0-9-]{0,39}$/.test(to))
    return 'Small letters, digits and hyphens, beginning with a letter, 40 at most.';
  apply(store, `short name ${to}`, renamed(store.draft.get(), kind, id, to));
  return null;
}

/** Asks, saying what else goes, and takes a thing out. Resolves to whether it went. */
export async function takeOut(store: CellStore, kind: Kind, id: string): Promise<boolean> {
  const name = nameIn(store, kind, id);
  const { draft, fell } = removed(store.draft.get(), kind, id);
  if (fell.length > 0) {
    const yes = await ask({
      heading: `Take out “${name}”?`,
      text: `With it goes: ${fell.slice(0, 8).join('; ')}${fell.length > 8 ? `; and ${fell.length - 8} more` : ''}.`,
      yes: 'take it out',
    });
    if (!yes) return false;
  }
  const whole = draft as JsonGroup;
  const empty =
    (kind === 'gear' || kind === 'products') && Object.keys((whole[kind] ?? {}) as JsonGroup).length === 0;
  apply(
    store,
    `“${name}” taken out`,
    empty ? Object.fromEntries(Object.entries(whole).filter(([key]) => key !== kind)) : whole,
  );
  say(`“${name}” taken out.`, { act: { label: 'undo', run: () => void store.undo() } });
  return true;
}

/** One place earlier or later in the order of the work, of the crew, of the list. */
export function move(store: CellStore, kind: Kind, id: string, by: -1 | 1): void {
  const entries = Object.entries(groupOf(store, kind));
  const at = entries.findIndex(([key]) => key === id);
  const to = at + by;
  if (at < 0 || to < 0 || to >= entries.length) return;
  const [entry] = entries.splice(at, 1);
  entries.splice(to, 0, entry!);
  store.change(
    `“${nameIn(store, kind, id)}” ${by === -1 ? 'earlier' : 'later'}`,
    [kind],
    Object.fromEntries(entries),
  );
}
