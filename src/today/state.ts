/** What is in the cell at a minute of the shift: counted in by hand, or read off a record of events. */
import { clockAfter } from '../scenario/clock.ts';
import { resolve, taskOf, type ResolvedShift } from '../scenario/resolve.ts';
import type { CarryOver, Hold, Scenario } from '../scenario/schema.ts';
import type { EventRow } from '../record/event-row.ts';
import { GearHeld } from './gear-held.ts';
import { GearOut } from './gear-out.ts';
import { meanLeft } from './mean-minutes.ts';
import { OutRacks } from './out-racks.ts';
import { toldOfArrival, toldOfUnits, type Told } from './told-of-units.ts';

export interface NowState {
  /** Clock time of the count, "HH:MM", within the shift or its overtime. */
  at: string;
  /** Good units so far this shift, by the hour from its start; the last entry may be a part of an hour. */
  goodByHour: number[];
  /** All of them, where nobody noted the hours. */
  good?: number | undefined;
  /**
   * Everything in the cell, as a file's carry-over says it. `minutes` of a piece in hand are those already
   * worked, at a cure those left.
   */
  inside: CarryOver[];
  holds: Hold[];
  /** Not here today, or gone: ids of people. */
  out: string[];
  /** Gear that is out of order for so many minutes more. */
  broken: { gear: string; items: number; minutes: number }[];
  /** Finished pieces on the part-filled out-rack, and minutes until each rack that left is back. */
  outRack?: { standing: number; away: number[] } | undefined;
}

export const goodSoFar = (now: NowState): number =>
  now.good ?? now.goodByHour.reduce((sum, good) => sum + good, 0);

/** Nothing counted yet: a cell at a time, as empty as it can be. */
export const emptyNow = (at: string): NowState => ({
  at,
  goodByHour: [],
  inside: [],
  holds: [],
  out: [],
  broken: [],
});

interface Piece {
  at: string;
  state: NonNullable<CarryOver['state']> | 'outside';
  product: string;
  person: string;
  /** The other of two. */
  second: string;
  /** Ms: when this stretch of work or cure began; worked before it. */
  since: number;
  worked: number;
  to: string;
  visits: Record<string, number>;
  arrived: number;
  /** Ms: when it came to stand in this line, or was blocked. */
  stood: number;
  order: number;
}

/**
 * The state of a cell at `minute` of its first shift, from a record of that shift. Events of that very
 * instant count as done. A cure's minutes left are the mean of those it may have; what a piece in hand has
 * had is exact.
 */
export function stateAt(scenario: Scenario, events: readonly EventRow[], minute: number): NowState {
  const shift = resolve(scenario);
  const until = minute * 60_000;
  const pieces = new Map<string, Piece>();
  const gone = new Set<string>();
  const came = new Set<string>();
  const goodByHour: number[] = Array<number>(Math.ceil(minute / 60)).fill(0);
  const told = toldOfUnits(scenario);
  const clamped = new GearHeld(shift);
  const broken = new GearOut(shift);
  const racks = new OutRacks(shift);
  let order = 0;
  for (const event of events) {
    if (event.time > until) break;
    clamped.hear(event);
    broken.hear(event);
    racks.hear(event);
    if (event.event === 'comes') came.add(event.person);
    if (event.event === 'goes') gone.add(event.person);
    if (event.event === 'good') {
      const hour = Math.min(goodByHour.length - 1, Math.floor(event.time / 3_600_000));
      goodByHour[hour] = (goodByHour[hour] ?? 0) + 1;
    }
    if (event.unit !== '') follow(pieces, event, shift, ++order);
  }
  const inside = inOrder([...pieces.entries()])
    .map(([name, piece]) => {
      const { stood, ...known } = told.get(name) ?? toldOfArrival(shift, piece.arrived / 60_000);
      const waited = waitedBy(piece, stood, until);
      return {
        ...carried(scenario, shift, name, piece, until),
        ...known,
        ...(waited === 0 ? {} : { waited }),
      };
    })
    .map((piece) => clamped.told(piece));
  const out = Object.keys(scenario.people).filter(
    (person) => gone.has(person) || (!came.has(person) && shouldBeHere(shift, person, minute)),
  );
  return {
    at: clockAfter(shift.start, minute),
    goodByHour,
    inside,
    holds: scenario.holds?.filter((_, i) => shift.holds[i]!.until > minute) ?? [],
    out,
    broken: broken.at(until),
    ...racks.told(until),
  };
}

/** Minutes a piece has stood where it waits, before the shift too; 0 for one that is worked or cures. */
function waitedBy({ state, stood, at }: Piece, before: Told['stood'], now: number): number {
  if (state !== 'waiting' && state !== 'outside' && state !== 'blocked') return 0;
  const earlier = stood === 0 && before?.at === at ? before.minutes : 0;
  return (now - stood) / 60_000 + earlier;
}

/**
 * In the order they came into the cell, which settles what comes to pass at one instant; of those that wait
 * in one line, that stand blocked, or that lie at one step, in the order they came to stand there.
 */
function inOrder(pieces: [string, Piece][]): [string, Piece][] {
  const lines = new Map<string, [string, Piece][]>();
  for (const piece of pieces) {
    const line = lineOf(piece);
    lines.set(line, [...(lines.get(line) ?? []), piece]);
  }
  for (const line of lines.values())
    line.sort(
      ([, a], [, b]) => Number(b.state === 'outside') - Number(a.state === 'outside') || b.order - a.order,
    );
  // The places of a line stay, and those who stand in it share them out.
  return pieces.map((piece) => lines.get(lineOf(piece))!.pop()!);
}

function lineOf([name, { state, at }]: [string, Piece]): string {
  if (state === 'waiting' || state === 'outside') return `line of ${at}`;
  return state === 'blocked' ? 'blocked' : state === 'put down' ? `lies at ${at}` : `by itself: ${name}`;
}

const shouldBeHere = (shift: ResolvedShift, id: string, minute: number): boolean =>
  shift.people.some((person) => person.id === id && person.from <= minute);

function follow(pieces: Map<string, Piece>, event: EventRow, shift: ResolvedShift, order: number): void {
  const known = pieces.get(event.unit);
  const piece = known ?? {
    at: shift.steps[0]!.id,
    state: 'outside' as const,
    product: event.product,
    person: '',
    second: '',
    since: 0,
    worked: 0,
    to: '',
    visits: {},
    arrived: event.time,
    stood: event.time,
    order,
  };
  if (known === undefined) pieces.set(event.unit, piece);
  const stands = (state: Piece['state'], step = event.step): void => {
    piece.state = state;
    piece.at = step;
    piece.order = order;
    piece.stood = event.time;
  };
  switch (event.event) {
    case 'joins line':
      // Into a rack of no slots: it stays on the bench it was worked at, and is carried as blocked there.
      if (
        shift.steps.some((step) => step.id === event.step && step.rack === 0) &&
        piece.state === 'in hand'
      ) {
        stands('blocked', piece.at);
        piece.to = event.step;
      } else {
        stands('waiting');
      }
      break;
    case 'stands aside':
      stands('waiting');
      break;
    case 'begins':
      stands('in hand');
      Object.assign(piece, { person: event.person, second: event.second, since: event.time, worked: 0 });
      piece.visits[event.step] = (piece.visits[event.step] ?? 0) + 1;
      break;
    case 'put down':
      if (piece.state === 'in hand') piece.worked += event.time - piece.since;
      stands('put down');
      piece.person = event.person;
      break;
    case 'resumed':
      stands('in hand');
      Object.assign(piece, { person: event.person, second: event.second, since: event.time });
      break;
    case 'cure begins':
      stands('curing');
      piece.since = event.time;
      piece.visits[event.step] = (piece.visits[event.step] ?? 0) + 1;
      break;
    case 'ends':
    case 'cure ends':
      piece.to = nextOf(shift, piece.product, event.step);
      break;
    case 'rework':
      piece.to = event.detail.split(':')[0]!;
      break;
    case 'blocked':
      stands('blocked');
      break;
    case 'good':
    case 'out again':
    case 'scrap':
    case 'sent elsewhere':
      pieces.delete(event.unit);
      break;
    default:
      break;
  }
}

/** Where a piece goes from a step; empty for the out-rack, and from a step the file does not have. */
const nextOf = (shift: ResolvedShift, product: string, step: string): string =>
  shift.steps.some((one) => one.id === step) ? (taskOf(shift, product, step).next ?? '') : '';

function carried(
  scenario: Scenario,
  shift: ResolvedShift,
  name: string,
  piece: Piece,
  now: number,
): CarryOver {
  const entry: CarryOver = { at: piece.at, name, arrived: Math.max(0, (now - piece.arrived) / 60_000) };
  if (piece.product !== '' && scenario.products !== undefined) entry.product = piece.product;
  const visits = { ...piece.visits };
  if (piece.state === 'outside') return entry;
  entry.state = piece.state;
  if (piece.state !== 'waiting' && piece.state !== 'blocked') visits[piece.at] = (visits[piece.at] ?? 1) - 1;
  const asked = { at: piece.at, visits, ...(entry.product === undefined ? {} : { product: entry.product }) };
  if (piece.state === 'in hand' || piece.state === 'put down') {
    const worked = (piece.worked + (piece.state === 'in hand' ? now - piece.since : 0)) / 60_000;
    if (shift.steps.some((step) => step.id === piece.at && step.people === 2) || piece.person === '') {
      // A file lets a piece of two, or of nobody, be put down only: with what is left of it on average.
      entry.state = 'put down';
      entry.minutes = meanLeft(
        shift,
        asked,
        worked,
        [piece.person, piece.second].filter((person) => person !== ''),
      );
    } else {
      entry.state = 'in hand';
      entry.minutes = worked;
      entry.person = piece.person;
    }
  }
  if (piece.state === 'curing') entry.minutes = meanLeft(shift, asked, (now - piece.since) / 60_000);
  if (piece.state === 'blocked' && piece.to !== '' && piece.to !== nextOf(shift, piece.product, piece.at))
    entry.to = piece.to;
  if (Object.keys(visits).length > 0) entry.visits = visits;
  return entry;
}
