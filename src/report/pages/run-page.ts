/** The answer of "run": how many, do we make the number, what holds us back, and the accounts behind it. */
import type { Block, Page } from '../../document/document.ts';
import { nothingMadeWords } from '../../words/nothing-made.ts';
import { holdsBackSentence } from '../../words/verdicts.ts';
import type { Caution } from '../../scenario/cautions.ts';
import { type ResolvedShift, resolvePlant } from '../../scenario/resolve.ts';
import { differenceThatMatters, promiseShare } from '../../study/from-scenario.ts';
import type { OneMoreOfEach } from '../../study/one-more.ts';
import type { StudySummary } from '../../study/summary.ts';
import type { Input } from '../input.ts';
import { stoodTable, stoodWords, type StoodTold } from '../parts/stood.ts';
import { bestWords, eachTable } from './each.ts';
import { figuresTable } from './figures.ts';
import { foot, openingWords, type Repeat } from './foot.ts';
import { caseSentences, meanSureSentence, promiseWords } from './sentences.ts';
import { shiftTables } from './tables.ts';

export interface RunAnswer {
  input: Input;
  shifts: ResolvedShift[];
  study: StudySummary;
  /** Null where it was not asked, or stopped before it. */
  each: OneMoreOfEach | null;
  /** Where the minutes went by reason; null where it was not asked. */
  stood: StoodTold | null;
  cautions: Caution[];
  repeat: Repeat;
}

export function runPage({ input, shifts, study, each, stood, cautions, repeat }: RunAnswer): Page {
  const { scenario } = input;
  const one = study.cases[0]!;
  const sure = { kind: 'paragraph' as const, text: meanSureSentence(study, one.good) };
  const partial = study.kind === 'partial';
  if (study.count === 0) {
    return {
      title: scenario.name,
      blocks: [
        heading(scenario.name),
        {
          kind: 'paragraph',
          text: 'PARTIAL: stopped by hand before a single shift was run; there is nothing to say yet.',
        },
      ],
    };
  }
  const overtime = shifts.some((shift) => shift.overtime.until !== 'none');
  const share = promiseShare(scenario);
  const several =
    shifts.length > 1
      ? [
          {
            kind: 'paragraph' as const,
            text: `${shifts.length} shifts in a row are run: what is said of a shift is the mean over them, what is promised is of all of them together.`,
          },
        ]
      : [];
  return {
    title: scenario.name,
    blocks: [
      heading(scenario.name),
      ...(partial ? [sure] : []),
      { kind: 'paragraph', text: caseSentences(one, share, overtime).join(' ') },
      ...nothingMade(shifts, one.good.estimate),
      { kind: 'paragraph', text: promiseWords(one, share) },
      ...several,
      ...heldBack(input, each),
      ...(stood === null ? [] : stoodWords(stood).map((text): Block => ({ kind: 'paragraph', text }))),
      ...(partial ? [] : [sure]),
      { kind: 'paragraph', text: openingWords(input) },
      ...shifts.flatMap((shift, index): Block[] => [
        {
          kind: 'heading',
          level: 2,
          text: shifts.length === 1 ? 'The shift' : `Shift ${index + 1}: ${shift.name}`,
        },
        ...shiftTables(study.cases[0]!.shifts[index]!, shift),
      ]),
      ...(shifts.length === 1 ? [] : [{ kind: 'heading' as const, level: 2 as const, text: 'All shifts' }]),
      figuresTable(one, shifts.length, resolvePlant(scenario).money.currency),
      ...(stood === null ? [] : stoodTable(stood)),
      ...(each === null || each.study.kind !== 'final'
        ? []
        : eachTable(each, scenario, 'One more of each thing, alone, on the same luck: good units a shift.')),
      ...foot(input, repeat, cautions),
    ],
  };
}

const heading = (text: string): Block => ({ kind: 'heading', level: 1, text });

function heldBack({ scenario }: Input, each: OneMoreOfEach | null): Block[] {
  if (each === null) return [];
  if (each.study.kind !== 'final')
    return [{ kind: 'paragraph', text: 'What holds you back was not asked to the end.' }];
  const matters = differenceThatMatters(scenario);
  const best = each.constraint.length === 0 ? '' : ` ${bestWords(each, matters)}`;
  return [{ kind: 'paragraph', text: `${holdsBackSentence(each.constraint, matters)}${best}` }];
}

function nothingMade(shifts: ResolvedShift[], good: number): Block[] {
  const words = nothingMadeWords(shifts, good);
  return words.length === 0 ? [] : [{ kind: 'paragraph', text: `Why so little: ${words.join(' ')}` }];
}
