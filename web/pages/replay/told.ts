/**
 * A written-down shift in the words of the shop: what each lane is doing, and why somebody or something had
 * to wait.
 */
import type { Meaning } from '../../../src/charts/index.ts';
import { gearStateWords, personStateWords, type StateWords } from '../../../src/words/states.ts';
import { counted, inSentence, listed } from '../../../src/words/words.ts';
import {
  gearStateOf,
  NO_FIT,
  NO_GEAR,
  NO_UNIT,
  NOWHERE,
  OUT_OF_ORDER,
  personPresence,
} from '../../../src/engine/states.ts';
import type { EventRow } from '../../../src/record/event-row.ts';
import type { ReplayShift } from '../../../src/record/replay.ts';
import type { Stretch } from '../../../src/record/stretch.ts';
import { clockOfMinutes, minutesOfClock } from '../../../src/scenario/clock.ts';
import type { ResolvedShift } from '../../../src/scenario/resolve.ts';

export interface ToldBlock {
  from: number;
  to: number;
  meaning: Meaning;
  /** "fit, piece 12". */
  words: string;
  /** What is written in the lane, the first that fits: "fit 12", "12". */
  labels: string[];
  idle: boolean;
}

export interface ToldLane {
  kind: 'person' | 'gear';
  name: string;
  blocks: ToldBlock[];
  /** Index in the shift, and of the piece of gear. */
  index: number;
  item: number;
}

export interface ToldLine {
  step: number;
  name: string;
  rack: number | null;
  most: number;
  changes: { at: number; length: number }[];
}

export interface Told {
  shift: ResolvedShift;
  replay: ReplayShift;
  lanes: ToldLane[];
  lines: ToldLine[];
}

const piece = (unit: number): string => (unit < 0 ? '' : `, piece ${unit + 1}`);

export function tellOf(shift: ResolvedShift, replay: ReplayShift): Told {
  const people = shift.people.map((person, index): ToldLane => ({
    kind: 'person',
    name: person.name,
    index,
    item: 0,
    blocks: replay.people[index]!.map((one) => personBlock(one, shift)),
  }));
  const gear = shift.gear.flatMap((one, index) =>
    one.kind === 'bench'
      ? []
      : replay.gear[index]!.map((stretches, item): ToldLane => ({
          kind: 'gear',
          name: one.count === 1 ? one.name : `${one.name} ${item + 1}`,
          index,
          item,
          blocks: stretches.map((stretch) => gearBlock(stretch, index, shift)),
        })),
  );
  const lines = shift.steps.flatMap((step, at): ToldLine[] =>
    step.kind === 'wait'
      ? []
      : [
          {
            step: at,
            name: step.name,
            rack: step.rack,
            changes: replay.lines[at]!,
            most: Math.max(0, ...replay.lines[at]!.map(({ length }) => length)),
          },
        ],
  );
  return { shift, replay, lanes: [...gear, ...people], lines: lines.filter(({ most }) => most > 0) };
}

function personBlock({ from, to, state, unit }: Stretch, shift: ResolvedShift): ToldBlock {
  const told = personStateWords(state, shift);
  const off = personPresence(state) !== 'here';
  return {
    from,
    to,
    words: `${told.words}${piece(unit)}`,
    labels: labelsOf(told.words, unit),
    idle: told.kind === 'idle',
    meaning: off ? 'off' : told.kind === 'idle' ? 'free' : workMeaning(state, shift),
  };
}

function workMeaning(state: number, shift: ResolvedShift): Meaning {
  const step = shift.steps[state - NO_GEAR - shift.gear.length];
  return step === undefined ? 'other' : meaningOfStep(step.id, shift);
}

export function meaningOfStep(id: string, shift: ResolvedShift): Meaning {
  const step = shift.steps.find((one) => one.id === id);
  if (step?.kind === 'wait') return 'cure';
  if ((step?.takes.length ?? 0) > 0) return 'glue-up';
  return shift.steps.some((one) => one.takes.some((take) => take.until === id)) ? 'unclamping' : 'other';
}

function gearBlock({ from, to, state, unit }: Stretch, gear: number, shift: ResolvedShift): ToldBlock {
  const told: StateWords = gearStateWords(state, gear, shift);
  const step = stepOfGear(state, shift);
  const meaning: Meaning =
    told.kind === 'free'
      ? 'free'
      : state === OUT_OF_ORDER
        ? 'off'
        : told.kind === 'idle'
          ? 'waiting'
          : step === undefined
            ? 'other'
            : meaningOfStep(step.id, shift);
  const label =
    told.kind === 'idle' && step !== undefined ? `waits for ${inSentence(step.name)}` : told.words;
  return {
    from,
    to,
    meaning,
    words: `${told.words}${piece(unit)}`,
    labels: labelsOf(label, unit),
    idle: told.kind === 'idle',
  };
}

function labelsOf(name: string, unit: number): string[] {
  return unit < 0 ? [name] : [`${name} ${unit + 1}`, String(unit + 1)];
}

/** The step of the unit that holds a piece of gear; undefined without one, or where the out-rack is next. */
function stepOfGear(state: number, { steps }: ResolvedShift): ResolvedShift['steps'][number] | undefined {
  const told = gearStateOf(state);
  return 'step' in told ? steps[told.step] : undefined;
}

export const clockAt = (shift: ResolvedShift, minutes: number): string =>
  clockOfMinutes(minutesOfClock(shift.start) + minutes);

export const blockAt = ({ blocks }: ToldLane, at: number): ToldBlock | undefined =>
  blocks.find(({ from, to }) => at >= from && at < to) ?? blocks.at(-1);

export const lengthAt = ({ changes }: ToldLine, at: number): number => {
  let length = 0;
  for (const change of changes) {
    if (change.at > at) break;
    length = change.length;
  }
  return length;
};

const minutes = (from: number, to: number): string => counted(Math.max(1, Math.round(to - from)), 'minute');

/** "Tova, 08:10 to 08:24: no clamp set free." */
export const blockWords = ({ shift }: Told, lane: ToldLane, block: ToldBlock): string =>
  `${lane.name}, ${clockAt(shift, block.from)} to ${clockAt(shift, block.to)} (${minutes(block.from, block.to)}): ${block.words}.`;

/** Why a lane waited in this block; empty where it did not. */
export function whyWords(told: Told, lane: ToldLane, block: ToldBlock): string {
  if (!block.idle) return '';
  const stretch =
    lane.kind === 'person'
      ? told.replay.people[lane.index]!.find(({ from }) => from === block.from)
      : told.replay.gear[lane.index]![lane.item]!.find(({ from }) => from === block.from);
  if (stretch === undefined) return '';
  return lane.kind === 'gear' ? whyGear(told, stretch) : whyPerson(told, lane.index, stretch);
}

/** A clamp set waits for somebody at the next step: what those who stand there were at instead. */
function whyGear(told: Told, { state, from }: Stretch): string {
  const step = stepOfGear(state, told.shift);
  if (step === undefined) return 'The out-rack had no room.';
  const who = coverers(told, step.id, from);
  if (who.length === 0) return `Nobody stands at ${inSentence(step.name)} at this time.`;
  return `Those who stand at ${inSentence(step.name)}, at ${clockAt(told.shift, from)}: ${listed(who.map((index) => doing(told, index, from)))}.`;
}

function whyPerson(told: Told, person: number, { state, from }: Stretch): string {
  const { shift } = told;
  const steps = coverOf(told, person, from)
    .map((id) => shift.steps.findIndex((step) => step.id === id))
    .filter((at) => at >= 0);
  const gear = shift.gear[state - NO_GEAR];
  if (gear !== undefined) return `${gearNow(told, state - NO_GEAR, from)}`;
  if (state === NOWHERE) {
    const full = told.lines.filter((line) => line.rack !== null && lengthAt(line, from) >= line.rack);
    return full.length === 0
      ? 'The bench was held by a piece that could not move on.'
      : `${listed(full.map((line) => `the rack before ${inSentence(line.name)} was full (${line.rack})`)).replace(/^t/, 'T')}.`;
  }
  if (state === NO_FIT) {
    const next = shift.breaks.find((one) => one.from > from);
    return `A whole piece would not have fitted before ${next === undefined || next.from > from + 120 ? 'the end' : `the ${next.name} at ${clockAt(shift, next.from)}`}.`;
  }
  return state === NO_UNIT ? whyNothing(told, person, steps, from) : '';
}

/** Nothing in the line of the steps they cover first: who should have filled it, and what those were at. */
function whyNothing(told: Told, person: number, steps: number[], at: number): string {
  const { shift } = told;
  return steps
    .slice(0, 2)
    .map((step) => {
      const own = shift.steps[step]!;
      const name = inSentence(own.name);
      const before = shift.steps.filter((one) => one.next === own.id);
      const source = before.find((one) => one.kind === 'hands');
      if (source === undefined)
        return before.length === 0 ? `Nothing had come in for ${name}.` : `Nothing had cured for ${name}.`;
      const who = coverers(told, source.id, at).filter((index) => index !== person);
      const there =
        who.length === 0
          ? `nobody else stands at ${inSentence(source.name)}`
          : `at ${inSentence(source.name)} then: ${listed(who.map((index) => doing(told, index, at)))}`;
      return `Nothing stood before ${name}; ${there}.`;
    })
    .join(' ');
}

function gearNow(told: Told, gear: number, at: number): string {
  const lanes = told.lanes.filter((lane) => lane.kind === 'gear' && lane.index === gear);
  if (lanes.length === 0) {
    const items = told.replay.gear[gear]!.map((stretches) =>
      stretches.find(({ from, to }) => at >= from && at < to),
    ).filter((one) => one !== undefined);
    return items.length === 0
      ? ''
      : `It was taken: ${listed(items.map((one) => gearStateWords(one.state, gear, told.shift).words))}.`;
  }
  return `${listed(
    lanes.map((lane) => {
      const block = blockAt(lane, at);
      return block === undefined
        ? lane.name
        : `${lane.name}: ${block.words} until ${clockAt(told.shift, block.to)}`;
    }),
  )}.`;
}

/** "Bastian (stage the parts, piece 22)". */
function doing(told: Told, person: number, at: number): string {
  const lane = told.lanes.find((one) => one.kind === 'person' && one.index === person)!;
  return `${lane.name} (${blockAt(lane, at)?.words ?? 'not in'})`;
}

const coverOf = ({ shift }: Told, person: number, at: number): string[] =>
  shift.people[person]!.cover.filter(({ from }) => from <= at).at(-1)?.steps ?? [];
const coverers = (told: Told, step: string, at: number): number[] =>
  told.shift.people.flatMap((_, index) => (coverOf(told, index, at).includes(step) ? [index] : []));

/** Minutes all clamp sets and gear together waited for hands. */
export const waitedForHands = ({ lanes }: Told): number =>
  lanes
    .filter(({ kind }) => kind === 'gear')
    .reduce(
      (sum, { blocks }) =>
        sum +
        blocks
          .filter(({ meaning }) => meaning === 'waiting')
          .reduce((own, { from, to }) => own + to - from, 0),
      0,
    );

/** What is worth stepping to. */
const NEWS = new Set([
  'arrives',
  'begins',
  'good',
  'out again',
  'rework',
  'scrap',
  'blocked',
  'cure ends',
  'idle',
  'break',
  'back',
  'comes',
  'goes',
  'gear out',
  'gear mended',
  'target met',
  'rack sent',
  'stands aside',
  'released',
  'shift ends',
]);
export const newsOf = ({ events }: ReplayShift): EventRow[] =>
  events.filter(({ event, time }) => NEWS.has(event) && time >= 0);

/** "Tova begins glue and clamp, piece 12". */
export function eventWords(row: EventRow, shift: ResolvedShift): string {
  const person = shift.people.find(({ id }) => id === row.person)?.name ?? row.person;
  const step = inSentence(shift.steps.find(({ id }) => id === row.step)?.name ?? row.step);
  const gear = shift.gear.find(({ id }) => id === row.gear)?.name ?? row.gear;
  const unit = row.unit === '' ? '' : `piece ${row.unit}`;
  switch (row.event) {
    case 'begins':
      return `${person} begins ${step}, ${unit}`;
    case 'idle':
      return `${person}: ${row.detail}`;
    case 'break':
      return `${person} goes on break`;
    case 'back':
      return `${person} is back`;
    case 'comes':
      return `${person} comes`;
    case 'goes':
      return `${person} goes home`;
    case 'away':
      return `${person} leaves for another line`;
    case 'tidies up':
      return `${person} tidies up`;
    case 'good':
      return `${unit} is good`;
    case 'out again':
      return `${unit}, which had come back, is out again`;
    case 'cure ends':
      return `${unit} is cured`;
    case 'gear out':
      return `${gear} ${row.item} is out of order`;
    case 'gear mended':
      return `${gear} ${row.item} is in order again`;
    case 'rework':
      return `${unit} goes back: ${row.detail}`;
    default:
      return [unit, person, row.event, step, row.detail].filter((part) => part !== '').join(' ');
  }
}
