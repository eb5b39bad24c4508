/**
 * The handover at the end of a shift, on one page: what stands where, clamps and when each comes off, holds,
 * causes, the number.
 */
import { clockAfter, clockOfMinutes, minutesOfClock } from '../scenario/clock.ts';
import { nameOf, resolve, type ResolvedCarried, type ResolvedShift } from '../scenario/resolve.ts';
import type { Scenario } from '../scenario/schema.ts';
import { cautionsOnShort } from '../scenario/cautions.ts';
import type { EventRow } from '../record/event-row.ts';
import { meanMinutes } from '../today/mean-minutes.ts';
import { goodSoFar, type NowState } from '../today/state.ts';
import { sumOf } from '../today/told-count.ts';
import { missingSentence } from './now-page.ts';
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
  /** "Friday 5 March 2027"; left out: no day in particular. */
  day?: string;
  /** Lines for names and times at the bottom: for paper. */
  signed?: boolean;
}

export function handoverPage(told: HandoverTold): Page {
  const { scenario, now } = told;
  const good = goodSoFar(now);
  const shift = resolve({ ...scenario, carryOver: now.inside, holds: now.holds });
  const { target, carryOver: inside } = shift;
  const pieces = inside.reduce((sum, piece) => sum + piece.units, 0);
  const answer =
    target === null
      ? `${counted(good, 'good unit')} by ${now.at}; ${counted(pieces, 'piece')} in the cell.`
      : `${good} good of the ${target} due by ${now.at}; ${counted(pieces, 'piece')} in the cell.`;
  const blocks: Block[] = [
    { kind: 'heading', level: 1, text: answer },
    ...(told.day === undefined
      ? []
      : [{ kind: 'paragraph' as const, text: `${scenario.name}, ${told.day}.` }]),
    ...missing(told),
    ...(told.promised === null ? [] : [{ kind: 'paragraph' as const, text: `Promised: ${told.promised}` }]),
    { kind: 'heading', level: 2, text: 'What stands where' },
    standing(shift),
    ...clamps(shift, now.at),
    ...holdBlocks(shift),
    ...broken(shift, now),
    ...causes(shift, told.events),
    ...(told.note === ''
      ? []
      : [
          { kind: 'heading' as const, level: 2 as const, text: 'To know' },
          { kind: 'paragraph' as const, text: told.note },
        ]),
    ...cautionsOnShort(scenario, 'handover').map(({ text }): Block => ({ kind: 'note', text })),
    ...(told.signed === true ? signOff() : []),
  ];
  const day = told.day === undefined ? '' : `, ${told.day}`;
  return { title: `Handover: ${scenario.name}${day}, ${now.at}`, blocks };
}

function missing({ scenario, now }: HandoverTold): Block[] {
  const sentence = missingSentence(sumOf(scenario, now));
  return sentence === null ? [] : [{ kind: 'paragraph', text: sentence }];
}

/** Whoever leaves and whoever takes over put their names to it. */
const signOff = (): Block[] => [
  { kind: 'heading', level: 2, text: 'Signed' },
  {
    kind: 'table',
    head: ['', 'Name', 'Time'],
    rows: [
      ['Handed over', '____________________', '________'],
      ['Taken over', '____________________', '________'],
    ],
    align: ['left', 'left', 'left'],
  },
];

const STATES: Record<string, string> = {
  waiting: 'waiting',
  'in hand': 'in hand',
  curing: 'curing',
  'put down': 'put down half done',
  blocked: 'done, no room to move on',
};

/** One line a step and state, in the order of the work. */
function standing(shift: ResolvedShift): Block {
  const rows: string[][] = [];
  for (const step of shift.steps) {
    for (const state of Object.keys(STATES)) {
      const here = shift.carryOver.filter((piece) => piece.at === step.id && piece.state === state);
      if (here.length === 0) continue;
      const units = here.reduce((sum, piece) => sum + piece.units, 0);
      rows.push([step.name, STATES[state]!, String(units), details(shift, here, state)]);
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

function details({ people }: ResolvedShift, pieces: ResolvedCarried[], state: string): string {
  const who = [
    ...new Set(pieces.flatMap((piece) => (piece.person === null ? [] : [nameOf(people, piece.person)]))),
  ];
  const rush = pieces.filter((piece) => piece.rush).length;
  const words = [
    ...(state === 'in hand' && who.length > 0 ? [`with ${who.join(', ')}`] : []),
    ...(rush > 0 ? [`${counted(rush, 'rush piece')} among them`] : []),
  ];
  return words.join('; ');
}

/** Every cure with the clock time it is over. */
function clamps(shift: ResolvedShift, now: string): Block[] {
  const curing = shift.carryOver.flatMap((piece) =>
    piece.state === 'curing' ? Array.from({ length: piece.units }, () => piece) : [],
  );
  if (curing.length === 0) return [];
  const rows = curing
    .map((piece) => ({ piece, left: piece.minutes ?? meanMinutes(shift, piece) }))
    .sort((a, b) => a.left - b.left)
    .map(({ piece, left }) => [
      nameOf(shift.steps, piece.at),
      piece.name ?? '',
      clockOfMinutes(minutesOfClock(now) + Math.ceil(left)),
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

function holdBlocks(shift: ResolvedShift): Block[] {
  if (shift.holds.length === 0) return [];
  const rows = shift.holds.map((hold) => [
    hold.units?.join(', ') ?? (hold.product === null ? 'all' : nameOf(shift.products, hold.product)),
    nameOf(shift.steps, hold.before),
    clockAfter(shift.start, hold.until),
    hold.whose === '' ? 'nobody named' : hold.whose,
  ]);
  return [
    { kind: 'heading', level: 2, text: 'On hold' },
    { kind: 'table', head: ['What', 'Before', 'Until', 'Whose decision'], rows },
  ];
}

function broken(shift: ResolvedShift, now: NowState): Block[] {
  if (now.broken.length === 0) return [];
  const items = now.broken.map(
    (one) =>
      `${counted(one.items, nameOf(shift.gear, one.gear))} out of order, about ${duration(one.minutes)} more`,
  );
  return [
    { kind: 'heading', level: 2, text: 'Out of order' },
    { kind: 'list', items },
  ];
}

function causes({ steps }: ResolvedShift, events: readonly EventRow[] | null): Block[] {
  if (events === null) return [];
  const counts = new Map<string, number>();
  const add = (words: string): void => void counts.set(words, (counts.get(words) ?? 0) + 1);
  let scrapped = 0;
  for (const event of events) {
    if (event.event === 'scrap') scrapped++;
    if (event.event !== 'rework') continue;
    const [to, cause] = event.detail.split(': ');
    add(
      `from “${nameOf(steps, event.step)}” back to “${nameOf(steps, to ?? '')}”: ${inSentence(cause ?? 'no cause given')}`,
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
