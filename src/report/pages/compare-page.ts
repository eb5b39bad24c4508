/** The answer of "compare": each choice against the cell as it is. */
import { nameOf, resolvePlant } from '../../scenario/resolve.ts';
import type { Block, Page } from '../../document/document.ts';
import { gainOf } from '../../study/verdict.ts';
import { toTellSentence } from '../../words/input-words.ts';
import { decimalsAlike, differenceAlike } from '../../words/alike.ts';
import { optionSubject, paybackWords } from '../../words/option-words.ts';
import { differenceSentence } from '../../words/sentences.ts';
import { chanceHead, studySure, shiftsInARow, spreadCaption, spreadCells } from '../../words/study-words.ts';
import { holdsBackSentence, soFar } from '../../words/verdicts.ts';
import { fixed, money, rangeText } from '../../words/words.ts';
import type { Caution } from '../../scenario/cautions.ts';
import { describeChanges } from '../../scenario/options.ts';
import { differenceThatMatters, promiseShare } from '../../study/from-scenario.ts';
import type { PairSummary, StudySummary } from '../../study/summary.ts';
import type { OnUsualDays } from '../../study/usual-days.ts';
import { stockWords, tonightWords, usualDaysWords } from '../../words/usual-words.ts';
import type { StudyCase } from '../../study/study.ts';
import type { Input } from '../input.ts';
import { waitingAndStaying, type InEach } from '../parts/side-by-side.ts';
import { foot, openingWords, type Repeat } from './foot.ts';
import { caseSentences } from './sentences.ts';

export interface ComparePage {
  input: Input;
  /** As they were asked. */
  cases: readonly StudyCase[];
  /** In the order of the cases after the first. */
  options: string[];
  study: StudySummary;
  /** What holds each back, things as they are first; null where it was not asked. */
  why: HeldBack[] | null;
  /** The choices with a price on usual days; null where there is none, or it was stopped. */
  usual: OnUsualDays | null;
  cautions: Caution[];
  repeat: Repeat;
}

export interface HeldBack {
  /** Of the choice. */
  name: string;
  constraint: string[];
}

export function comparePage(asked: ComparePage): Page {
  const { input, cases, options, study, why, usual, cautions, repeat } = asked;
  const { base } = input;
  const title = `${base.name}: ${options.length === 1 ? 'one choice' : `${options.length} choices`} against things as they are`;
  if (study.count === 0) {
    return {
      title,
      blocks: [
        { kind: 'heading', level: 1, text: title },
        {
          kind: 'paragraph',
          text: 'PARTIAL: stopped by hand before a single shift was run; there is nothing to say yet.',
        },
      ],
    };
  }
  const partial = study.kind !== 'final';
  return {
    title,
    blocks: [
      { kind: 'heading', level: 1, text: title },
      ...(partial
        ? [{ kind: 'paragraph' as const, text: 'PARTIAL: stopped by hand; what follows may still change.' }]
        : []),
      {
        kind: 'paragraph',
        text: `As it is: ${caseSentences(study.cases[0]!, promiseShare(base), false).join(' ')}`,
      },
      { kind: 'list', items: study.pairs.map((pair, i) => pairWords(input, pair, study, options[i]!)) },
      {
        kind: 'paragraph',
        text: studySure(study),
      },
      ...usualBlocks(input, study, usual),
      ...(why === null || why.length === 0
        ? []
        : [
            {
              kind: 'list' as const,
              items: why.map(
                ({ name, constraint }) =>
                  `${name}: ${holdsBackSentence(constraint, differenceThatMatters(base))}`,
              ),
            },
          ]),
      { kind: 'paragraph', text: openingWords(input) },
      table(resolvePlant(base).money.currency, study),
      ...waitingTables(study, cases),
      { kind: 'heading', level: 2, text: 'What each choice changes' },
      { kind: 'list', items: options.map((id) => changeWords(input, id)) },
      ...foot(input, repeat, cautions),
    ],
  };
}

function pairWords({ base }: Input, pair: PairSummary, study: StudySummary, option: string): string {
  const chosen = base.options![option]!;
  const words = differenceSentence(
    optionSubject(base, option, chosen),
    pair.good,
    { kind: 'units' },
    differenceThatMatters(base),
  );
  if (study.kind !== 'final') return soFar(words, study.count, pair.good.inARow);
  const matters = differenceThatMatters(base);
  const tell =
    gainOf(pair.good, matters) === 'open'
      ? (toTellSentence(pair.good, pair.hangsOn, study.inputs, matters) ?? '')
      : '';
  return [words, tell].filter((one) => one !== '').join(' ');
}

/** What is bought is bought for usual days: what it brings there, and when it pays back. */
function usualBlocks({ base }: Input, study: StudySummary, usual: OnUsualDays | null): Block[] {
  if (usual === null) return [];
  const matters = differenceThatMatters(base);
  const items = usual.pairs.map(({ after, good, cost }) => {
    const option = base.options![after]!;
    const gains = differenceSentence(optionSubject(base, after, option), good, { kind: 'units' }, matters);
    const tomorrow = study.pairs.find((pair) => pair.after === after)!.good;
    return [
      gains,
      paybackWords(base, option.price, { good, cost }),
      tonightWords(good, tomorrow, matters) ?? '',
    ]
      .filter((one) => one !== '')
      .join(' ');
  });
  return [
    {
      kind: 'paragraph',
      text: `All of that is tomorrow, with tonight’s stock. What is bought is priced on ${usualDaysWords(usual)}. ${stockWords(usual, matters).join(' ')}`,
    },
    { kind: 'list', items },
  ];
}

function differenceText(good: PairSummary['good'], decimals: number): string {
  const { estimate, range } = differenceAlike(good, decimals);
  return range === '' ? estimate : `${estimate} (${range})`;
}

/** What waits and who stays, choice by choice, as the picture of the planner has it. */
function waitingTables(study: StudySummary, cases: readonly StudyCase[]): Block[] {
  const found = waitingAndStaying(study, cases);
  if (found === null) return [];
  const some = ({ values }: InEach): boolean => values.some((value) => (value ?? 0) >= 0.05);
  const of = (caption: string, things: InEach[], none: string): Block => {
    const shown = things.filter(some);
    if (shown.length === 0) return { kind: 'paragraph', text: none };
    return {
      kind: 'table',
      caption,
      head: ['Choice', ...shown.map(({ name }) => name)],
      rows: study.cases.map(({ name }, i) => [
        name,
        ...shown.map(({ values }) => figureOf(values[i] ?? null)),
      ]),
      align: ['left', ...shown.map((): 'right' => 'right')],
    };
  };
  return [
    of(
      'Pieces waiting before each step, on average through the shift.',
      found.waiting,
      'Nothing waits before any step.',
    ),
    of('Minutes after the bell, a shift.', found.after, 'Nobody stays after the bell with any of them.'),
    ...(found.finishing.some(some)
      ? [
          of(
            'Of those minutes, with the piece in hand at their own end; the others are planned overtime.',
            found.finishing,
            '',
          ),
        ]
      : []),
  ];
}

const figureOf = (value: number | null): string => (value === null ? '-' : fixed(value, 1));

function changeWords({ base }: Input, id: string): string {
  const option = base.options![id]!;
  const changes = describeChanges(base, option.changes);
  const note = option.note === undefined ? '' : ` ${option.note}`;
  return `${nameOf(resolvePlant(base).options, id)} (${id}): ${changes.length === 0 ? 'changes nothing' : changes.join('; ')}.${note}`;
}

/** "8 + 17": finishing what is in hand, and planned. */
function overtimeCell({ overtime, measures }: StudySummary['cases'][number]): string {
  if (overtime.estimate < 0.5) return '0';
  return `${fixed(measures.finishing.estimate, 0)} + ${fixed(measures.plannedOvertime.estimate, 0)}`;
}

function table(currency: string, study: StudySummary): Block {
  const { target } = study.cases[0]!;
  const decimals = decimalsAlike(study.pairs.map(({ good }) => good));
  const chance = target === null ? [] : [chanceHead(study.cases)];
  const shifts = shiftsInARow(study);
  return {
    kind: 'table',
    caption: `${spreadCaption(shifts)}; the difference to things as they are a shift, with its range; overtime, minutes a shift of all people together (finishing pieces in hand + planned), and labor cost.`,
    head: ['Choice', '9 in 10', 'Half', '1 in 10', ...chance, 'Difference', 'Overtime', 'A good unit'],
    rows: study.cases.map((one, index) => {
      const pair = study.pairs.find(({ after }) => after === one.id);
      const cells = spreadCells(one);
      return [
        one.name,
        ...(target === null ? cells.slice(0, 3) : [...cells.slice(0, 3), cells[3] ?? '-']),
        index === 0 || pair === undefined
          ? `makes ${rangeText(one.good).estimate}${shifts > 1 ? ' a shift' : ''}`
          : differenceText(pair.good, decimals),
        overtimeCell(one),
        Number.isFinite(one.costPerGood) ? money(one.costPerGood, currency, 2) : '-',
      ];
    }),
    align: [
      'left',
      'right',
      'right',
      'right',
      ...chance.map((): 'right' => 'right'),
      'left',
      'right',
      'right',
    ],
  };
}
