/**
 * The handover at the end of a shift, on one page: what stands where, clamps and when each comes off, holds,
 * causes, the number.
 */
import { clockOfMinutes, minutesOfClock } from '../scenario/clock.ts';
import type { CarryOver, Scenario } from '../scenario/schema.ts';
import { cautionsFor } from '../scenario/cautions.ts';
import type { EventRow } from '../record/event-row.ts';
import { meanMinutes } from '../today/mean-minutes.ts';
import { goodSoFar, type NowState } from '../today/state.ts';
import type { Block, Page } from '../document/document.ts';
import { counted, duration, inSentence } from '../words/words.ts';

export interface HandoverTold {
  scenario: Scenario;
  now: NowState;
  /** What was promised this morning, in words; null where nothing was. */
  promised: string | null;
  /** Of the shift, where there is one: rework and scrap by cause come from it. */
  events: readonly EventRow[] | null;
  note: string;
}

const stepName = (scenario: Scenario, step: string): string => scenario.steps[step]?.name ?? step;
const personName = (scenario: Scenario, person: string): string => scenario.people[person]?.name ?? person;

export function handoverPage(told: HandoverTold): Page {
  const { scenario, now } = told;
  const good = goodSoFar(now);
  const pieces = now.inside.reduce((sum, piece) => sum + (piece.units ?? 1), 0);
  const target = scenario.shift?.target ?? null;
  const answer =
    target === null
      ? `${counted(good, 'good unit')} by ${now.at}; ${counted(pieces, 'piece')} in the cell.`
      : `${good} good of the ${target} due by ${now.at}; ${counted(pieces, 'piece')} in the cell.`;
  const blocks: Block[] = [
    { kind: 'heading', level: 1, text: answer },
    ...(told.promised === null ? [] : [{ kind: 'paragraph' as const, text: `Promised: ${told.promised}` }]),
    { kind: 'heading', level: 2, text: 'What stands where' },
    standing(scenario, now),
    ...clamps(scenario, now),
    ...holdBlocks(scenario, now),
    ...broken(scenario, now),
    ...causes(scenario, told.events),
    ...(told.note === ''
      ? []
      : [
          { kind: 'heading' as const, level: 2 as const, text: 'To know' },
          { kind: 'paragraph' as const, text: told.note },
        ]),
    ...cautionsFor(scenario)
      .filter((caution) => caution.topic === 'cure')
      .slice(0, 1)
      .map((caution): Block => ({ kind: 'note', text: caution.text })),
  ];
  return { title: `Handover: ${scenario.name}, ${now.at}`, blocks };
}

const STATES: Record<string, string> = {
  waiting: 'waiting',
  'in hand': 'in hand',
  curing: 'curing',
  'put down': 'put down half done',
  blocked: 'done, no room to move on',
};

/** One line a step and state, in the order of the work. */
function standing(scenario: Scenario, now: NowState): Block {
  const rows: string[][] = [];
  for (const step of Object.keys(scenario.steps)) {
    for (const state of Object.keys(STATES)) {
      const here = now.inside.filter((piece) => piece.at === step && (piece.state ?? 'waiting') === state);
      if (here.length === 0) continue;
      const units = here.reduce((sum, piece) => sum + (piece.units ?? 1), 0);
      rows.push([stepName(scenario, step), STATES[state]!, String(units), details(scenario, here, state)]);
    }
  }
  if (rows.length === 0) return { kind: 'paragraph', text: 'Nothing: the cell is empty.' };
  return {
    kind: 'table',
    head: ['Step', 'State', 'Pieces', ''],
    rows,
    align: ['left', 'left', 'right', 'left'],
  };
}

function details(scenario: Scenario, pieces: CarryOver[], state: string): string {
  const who = [
    ...new Set(
      pieces.flatMap((piece) => (piece.person === undefined ? [] : [personName(scenario, piece.person)])),
    ),
  ];
  const rush = pieces.filter((piece) => piece.rush === true).length;
  const words = [
    ...(state === 'in hand' && who.length > 0 ? [`with ${who.join(', ')}`] : []),
    ...(rush > 0 ? [`${counted(rush, 'rush piece')} among them`] : []),
  ];
  return words.join('; ');
}

/** Every cure with the clock time it is over. */
function clamps(scenario: Scenario, now: NowState): Block[] {
  const curing = now.inside.flatMap((piece) =>
    piece.state === 'curing' ? Array.from({ length: piece.units ?? 1 }, () => piece) : [],
  );
  if (curing.length === 0) return [];
  const rows = curing
    .map((piece) => ({ piece, left: piece.minutes ?? meanMinutes(scenario, piece) }))
    .sort((a, b) => a.left - b.left)
    .map(({ piece, left }) => [
      stepName(scenario, piece.at),
      piece.name ?? '',
      clockOfMinutes(minutesOfClock(now.at) + Math.ceil(left)),
      duration(Math.ceil(left)),
    ]);
  return [
    { kind: 'heading', level: 2, text: 'When each comes off' },
    {
      kind: 'table',
      head: ['Wait', 'Piece', 'Over at', 'Still to go'],
      rows,
      align: ['left', 'left', 'right', 'right'],
    },
  ];
}

function holdBlocks(scenario: Scenario, now: NowState): Block[] {
  if (now.holds.length === 0) return [];
  const rows = now.holds.map((hold) => [
    hold.units?.join(', ') ??
      (hold.product === undefined ? 'all' : (scenario.products?.[hold.product]?.name ?? hold.product)),
    stepName(scenario, hold.before),
    hold.until,
    hold.whose ?? 'nobody named',
  ]);
  return [
    { kind: 'heading', level: 2, text: 'On hold' },
    { kind: 'table', head: ['What', 'Before', 'Until', 'Whose decision'], rows },
  ];
}

function broken(scenario: Scenario, now: NowState): Block[] {
  if (now.broken.length === 0) return [];
  const items = now.broken.map(
    (one) =>
      `${counted(one.items, scenario.gear?.[one.gear]?.name ?? one.gear)} out of order, about ${duration(one.minutes)} more`,
  );
  return [
    { kind: 'heading', level: 2, text: 'Out of order' },
    { kind: 'list', items },
  ];
}

function causes(scenario: Scenario, events: readonly EventRow[] | null): Block[] {
  if (events === null) return [];
  const counts = new Map<string, number>();
  const add = (words: string): void => void counts.set(words, (counts.get(words) ?? 0) + 1);
  let scrapped = 0;
  for (const event of events) {
    if (event.event === 'scrap') scrapped++;
    if (event.event !== 'rework') continue;
    const [to, cause] = event.detail.split(': ');
    add(
      `from “${stepName(scenario, event.step)}” back to “${stepName(scenario, to ?? '')}”: ${inSentence(cause ?? 'no cause given')}`,
    );
  }
  const items = [...counts.entries()]
    .sort((a, b) => b[1] - a[1])
    .map(([words, count]) => `${count} ${words}`);
  if (scrapped > 0) items.push(`${counted(scrapped, 'piece')} scrapped`);
  return [
    { kind: 'heading', level: 2, text: 'What went wrong, by cause' },
    items.length === 0 ? { kind: 'paragraph', text: 'Nothing came back.' } : { kind: 'list', items },
  ];
}
