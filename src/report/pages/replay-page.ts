/** One shift explained: what set it apart, what stood longest and why, where the minutes went. */
import type { Block, Page } from '../../document/document.ts';
import type { ShiftReasons } from '../../record/why/reasons.ts';
import type { ReasonSums } from '../../record/why/sums.ts';
import type { Caution } from '../../scenario/cautions.ts';
import { clockOfMinutes, minutesOfClock } from '../../scenario/clock.ts';
import { resolvePlant, type ResolvedShift } from '../../scenario/resolve.ts';
import type { Apart, Beside } from '../../study/apart.ts';
import { counted } from '../../words/words.ts';
import type { Input } from '../input.ts';
import { stoodOf } from '../../study/by-reason.ts';
import { stoodWords } from '../parts/stood.ts';
import { reasonTables } from '../parts/reasons.ts';
import { apartWords, piecesWords, traitWords } from '../replay/apart-words.ts';
import { shownName, type Chosen } from '../replay/chosen.ts';
import { DEAREST, standsOf, standWords, whyLines } from '../replay/stands.ts';
import { foot, openingWords, type Repeat } from './foot.ts';

export interface ReplayTold {
  shift: ResolvedShift;
  reasons: ShiftReasons;
  good: number;
  chosen: Chosen;
  apart: Apart[];
  /** Where several shifts follow each other: what this one makes beside what it does as a rule. */
  beside: Beside | null;
  /** Shifts in a row, and what they made together. */
  inARow: { shifts: number; good: number };
  sums: ReasonSums;
}

/** Stretches that are told one by one. */
const MOST_STANDS = 8;

export function replayPage(input: Input, told: ReplayTold, repeat: Repeat, cautions: Caution[]): Page {
  const { shift, reasons, sums } = told;
  const title = `${input.scenario.name}: one shift, and why it stood`;
  const { money } = resolvePlant(input.scenario);
  const stands = standsOf(shift, reasons).slice(0, MOST_STANDS);
  return {
    title,
    blocks: [
      { kind: 'heading', level: 1, text: title },
      {
        kind: 'paragraph',
        text: `${madeWords(told)} ${apartWords(told.apart, told.chosen, shift, told.beside)}`.trim(),
      },
      ...apartList(told),
      { kind: 'paragraph', text: openingWords(input) },
      { kind: 'heading', level: 2, text: DEAREST },
      {
        kind: 'list',
        ordered: true,
        items: stands.map((stand) => [standWords(stand, shift, money), ...whyLines(stand, shift)].join(' ')),
      },
      { kind: 'heading', level: 2, text: 'Where the minutes go as a rule' },
      ...stoodWords({ shifts: [shift], stood: stoodOf([shift], [sums]), trials: [] }).map((text): Block => ({
        kind: 'paragraph',
        text,
      })),
      ...reasonTables(shift, sums),
      ...foot(input, repeat, cautions),
    ],
  };
}

type Made = Pick<ReplayTold, 'shift' | 'reasons' | 'good' | 'chosen' | 'inARow'>;

/** "A bad shift: 17 good pieces by 14:41, of 22 due." */
export function madeWords({ shift, reasons, good, chosen, inARow }: Made): string {
  const due = shift.target === null ? '' : `, of ${shift.target} due`;
  const by = clockOfMinutes(minutesOfClock(shift.start) + Math.floor(reasons.ends + 1e-9));
  return `${shownName(chosen, inARow, shift.name)}: ${counted(good, 'good piece')} by ${by}${due}.`;
}

function apartList({ apart, chosen, shift }: ReplayTold): Block[] {
  if (apart.length === 0 || chosen.kind === 'typical') return [];
  const items = apart.slice(0, 3).map((one) => `${traitWords(one, shift)}: ${piecesWords(one)}.`);
  return [{ kind: 'list', items }];
}
