/**
 * Who calls whom by name in a scenario file: for giving a thing another short name without losing a
 * reference, and for saying what hangs on a thing before it is taken out. Works on drafts, and on the changes
 * of options, which are pieces of the same shape.
 */
import type { Json, JsonGroup } from '../../store/draft.ts';

export type Kind = 'products' | 'steps' | 'gear' | 'people';

/** The new name of a reference, or null where it goes. */
type Rename = (id: string) => string | null;

export interface Rewritten {
  draft: Json;
  /** What fell away with a name that goes, in words. */
  fell: string[];
}

const isGroup = (value: Json | undefined): value is JsonGroup =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
const mapped = (group: JsonGroup, with_: (key: string, value: Json) => Json): JsonGroup =>
  Object.fromEntries(Object.entries(group).map(([key, value]) => [key, with_(key, value)]));

/** The draft with `from` called `to` wherever it is named. */
export const renamed = (draft: Json, kind: Kind, from: string, to: string): Json =>
  new Rewriting(kind, (id) => (id === from ? to : id), from, to).all(draft).draft;

/** The draft without a thing and without everything that cannot be without it. */
export const removed = (draft: Json, kind: Kind, gone: string): Rewritten =>
  new Rewriting(kind, (id) => (id === gone ? null : id), gone, null).all(draft);

class Rewriting {
  private readonly kind: Kind;
  private readonly rename: Rename;
  private readonly from: string;
  private readonly to: string | null;
  private fell: string[] = [];

  constructor(kind: Kind, rename: Rename, from: string, to: string | null) {
    this.kind = kind;
    this.rename = rename;
    this.from = from;
    this.to = to;
  }

  all(draft: Json): Rewritten {
    if (!isGroup(draft)) return { draft, fell: [] };
    const whole = this.scenario(draft);
    if (isGroup(whole['options'])) {
      whole['options'] = mapped(whole['options'], (_, option) => this.changesIn(option));
    }
    if (Array.isArray(whole['nextShifts']))
      whole['nextShifts'] = whole['nextShifts'].map((next) => this.changesIn(next));
    return { draft: whole, fell: [...new Set(this.fell)] };
  }

  private changesIn(owner: Json): Json {
    if (!isGroup(owner) || !isGroup(owner['changes'])) return owner;
    // What an option says of a thing that goes, goes quietly with it.
    const { fell } = this;
    this.fell = [];
    const changes = this.scenario(owner['changes']);
    if (this.fell.length > 0) fell.push(`part of “${nameOf(owner, 'an option')}”`);
    this.fell = fell;
    return { ...owner, changes };
  }

  private scenario(part: JsonGroup): JsonGroup {
    return mapped(part, (key, value) => {
      switch (key) {
        case 'products':
          return this.things(value, 'products', (one) => this.product(one));
        case 'steps':
          return this.things(value, 'steps', (one) => this.step(one));
        case 'gear':
          return this.things(value, 'gear', (one) => one);
        case 'people':
          return this.things(value, 'people', (one) => this.person(one));
        case 'carryOver':
          return this.list(value, (one) => this.carried(one));
        case 'holds':
          return this.list(value, (one) =>
            this.needs(this.drops(one, { product: 'products' }), 'before', 'steps', 'a hold before it'),
          );
        case 'limits':
          return isGroup(value)
            ? mapped(value, (name, one) =>
                name === 'vibration' || name === 'trigger' ? this.keys(one, 'steps', 'its vibration') : one,
              )
            : value;
        case 'shift':
          return this.shift(value);
        case 'intake':
          return this.intake(value);
        case 'calendar':
          return this.calendar(value);
        default:
          return value;
      }
    });
  }

  private things(value: Json, kind: Kind, inside: (one: JsonGroup) => Json): Json {
    const own = this.keys(value, kind);
    return isGroup(own) ? mapped(own, (_, one) => (isGroup(one) ? inside(one) : one)) : own;
  }

  /** A group whose keys are names of `kind`. */
  private keys(value: Json, kind: Kind, word = ''): Json {
    if (kind !== this.kind || !isGroup(value)) return value;
    return Object.fromEntries(
      Object.entries(value).flatMap(([key, one]) => {
        const name = this.rename(key);
        if (name === null && word !== '') this.fell.push(word);
        return name === null ? [] : [[name, one]];
      }),
    );
  }

  /** A list of names. */
  private names(value: Json, kind: Kind, word: string): Json {
    if (!Array.isArray(value)) return value;
    return value.flatMap((one): Json[] => {
      if (typeof one !== 'string') return [one];
      const name = this.reference(one, kind);
      if (name === null) this.fell.push(word);
      return name === null ? [] : [name];
    });
  }

  /** Benches of a step have its name and "-bench", and may be named where gear is. */
  private reference(id: string, kind: Kind): string | null {
    if (kind === this.kind) return this.rename(id);
    if (kind === 'gear' && this.kind === 'steps' && id === `${this.from}-bench`)
      return this.to === null ? null : `${this.to}-bench`;
    return id;
  }

  private list(value: Json, inside: (one: JsonGroup) => Json | null): Json {
    return Array.isArray(value)
      ? value.flatMap((one) => (isGroup(one) ? (inside(one) ?? []) : [one]))
      : value;
  }

  /** An entry that is nothing without the thing it names. */
  private needs(one: JsonGroup | null, key: string, kind: Kind, word: string): JsonGroup | null {
    const id = one?.[key];
    if (one === null || typeof id !== 'string') return one;
    const name = this.reference(id, kind);
    if (name === null) this.fell.push(word);
    return name === null ? null : mapped(one, (other, value) => (other === key ? name : value));
  }

  /** An entry whose mention of the thing simply goes. */
  private drops(one: JsonGroup, kinds: Record<string, Kind>): JsonGroup {
    return Object.fromEntries(
      Object.entries(one).flatMap(([key, value]) => {
        const kind = Object.hasOwn(kinds, key) ? kinds[key] : undefined;
        if (kind === undefined || typeof value !== 'string') return [[key, value]];
        const name = this.reference(value, kind);
        if (name === null) this.fell.push(`the word “${key}” of an entry`);
        return name === null ? [] : [[key, name]];
      }),
    );
  }

  private product(one: JsonGroup): Json {
    return mapped(this.drops(one, { enters: 'steps' }), (key, value) => {
      if (key === 'factors' || key === 'times' || key === 'timesFrom' || key === 'known')
        return this.keys(value, 'steps', `the own time of “${nameOf(one, 'a product')}”`);
      return key === 'skips'
        ? this.names(value, 'steps', `“${nameOf(one, 'a product')}” skipping it`)
        : value;
    });
  }

  private step(one: JsonGroup): Json {
    const name = nameOf(one, 'a step');
    return mapped(this.drops(one, { then: 'steps' }), (key, value) => {
      switch (key) {
        case 'uses':
          return this.names(value, 'gear', `its use at “${name}”`);
        case 'takes':
          return this.list(value, (take) =>
            this.needs(
              this.needs(take, 'gear', 'gear', `being taken at “${name}”`),
              'until',
              'steps',
              `the end of what “${name}” takes`,
            ),
          );
        case 'rework':
          return this.list(value, (back) =>
            this.needs(back, 'to', 'steps', `what “${name}” sends back to it`),
          );
        default:
          return value;
      }
    });
  }

  private person(one: JsonGroup): Json {
    const word = `${nameOf(one, 'somebody')} standing there`;
    return mapped(one, (key, value) => {
      switch (key) {
        case 'skills':
          return this.keys(value, 'steps', word);
        case 'covers':
          return this.names(value, 'steps', word);
        case 'changes':
          return this.list(value, (change) =>
            mapped(change, (part, covers) =>
              part === 'covers' ? this.names(covers, 'steps', word) : covers,
            ),
          );
        default:
          return value;
      }
    });
  }

  private carried(one: JsonGroup): JsonGroup | null {
    const kept = this.needs(
      this.drops(one, { to: 'steps', product: 'products', person: 'people' }),
      'at',
      'steps',
      'a piece carried over to it',
    );
    return kept === null
      ? null
      : mapped(kept, (key, value) => {
          if (key === 'visits') return this.keys(value, 'steps');
          return key === 'gear' ? this.names(value, 'gear', 'what a piece carried over holds') : value;
        });
  }

  private shift(value: Json): Json {
    if (!isGroup(value) || !isGroup(value['overtime'])) return value;
    return {
      ...value,
      overtime: mapped(value['overtime'], (key, one) =>
        key === 'who' ? this.names(one, 'people', 'the list of who stays for overtime') : one,
      ),
    };
  }

  private calendar(value: Json): Json {
    if (!isGroup(value)) return value;
    return mapped(value, (key, list) => {
      switch (key) {
        case 'absences':
          return this.list(list, (one) => this.needs(one, 'person', 'people', 'an absence of the calendar'));
        case 'gearAway':
          return this.list(list, (one) => this.needs(one, 'gear', 'gear', 'a day away in the calendar'));
        case 'deliveries':
        case 'orders':
          return this.list(list, (one) => this.drops(one, { product: 'products' }));
        default:
          return list;
      }
    });
  }

  private intake(value: Json): Json {
    if (!isGroup(value)) return value;
    return mapped(value, (key, one) =>
      key === 'arrivals' ? this.list(one, (arrival) => this.drops(arrival, { product: 'products' })) : one,
    );
  }
}

const nameOf = (one: JsonGroup, otherwise: string): string =>
  typeof one['name'] === 'string' && one['name'] !== '' ? one['name'] : otherwise;

/** A short name made from words: "Glue & clamp" gives "glue-clamp"; a number follows where it is taken. */
export function idFor(name: string, taken: Iterable<string>, otherwise: string): string {
  const plain = name
    .toLowerCase()
    .normalize('NFKD')
    .replace(/\p{M}+/gu, '')
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^[^a-z]+|-+$/g, '')
    .slice(0, 34)
    .replace(/-+$/, '');
  const base = plain === '' || plain === 'constructor' ? otherwise : plain;
  const others = new Set(taken);
  if (!others.has(base)) return base;
  for (let count = 2; ; count += 1) if (!others.has(`${base}-${count}`)) return `${base}-${count}`;
}
