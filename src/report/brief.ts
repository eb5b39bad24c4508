/**
 * The brief: one page that can be carried upstairs. `makeBrief` runs what it needs; `buildBrief` turns the
 * results into a page, and does nothing else: the same input gives the same page.
 */
import { cautionsFor } from '../scenario/cautions.ts';
import { resolve } from '../scenario/resolve.ts';
import { naiveNumber } from '../study/ceilings/spreadsheet.ts';
import type { Block, Page } from '../document/document.ts';
import { IN_SHORT } from './parts/in-short.ts';
import { assumptionsOf } from './parts/assumptions.ts';
import type { BriefInput } from './parts/data.ts';
import { doFirst } from './parts/first-then.ts';
import { hangsSentences, type Standing } from './parts/hangs.ts';
import { studyOf } from './parts/make.ts';
import { moneyFacts, moneyMoves, paybackWords, returnOf } from './parts/money.ts';
import { staircaseBlocks } from './parts/staircase.ts';
import { tellCrew } from './parts/tell-crew.ts';
import { tellLimits } from './parts/tell-limits.ts';
import { tellOneMore } from './parts/tell-one-more.ts';
import { tellOptions } from './parts/tell-options.ts';
import { paragraph, type Told } from './parts/told.ts';
import { asPromised } from '../study/intervals/interval.ts';
import { stoodSentence } from '../words/stood-words.ts';
import { outOfReachSentence } from '../words/sentences.ts';
import type { LogCoverage } from '../timing/log-coverage.ts';
import { counted, fixed, percent, plain, runsOf } from '../words/words.ts';

export { makeBrief, studyOf, type BriefStage } from './parts/make.ts';
export { crewQuestionOf } from './parts/crew-plan.ts';
export type { Again, BriefData, BriefInput, BriefQuestion } from './parts/data.ts';

/** The page. */
export function buildBrief(input: BriefInput): Page {
  const told = tell(input);
  const title = input.title?.trim() || told.question;
  return {
    title,
    blocks: [
      { kind: 'paragraph', text: title, small: true },
      ...(title === told.question
        ? []
        : [{ kind: 'paragraph' as const, text: `The question: ${told.question}`, small: true }]),
      { kind: 'heading', level: 1, text: headline(input, told) },
      ...first(input),
      ...says(input, told),
      ...why(input, told),
      ...(told.wide ? tables(told) : []),
      {
        kind: 'columns',
        columns: [
          [...(told.wide ? [] : tables(told)), ...costs(input, told)],
          [...sure(input, told), ...change(input, told), ...assumptions(input, told)],
        ],
      },
      ...notes(input.notes),
      ...cautions(told),
      ...again(input, told),
    ],
  };
}

/** The pictures of a page, each with the name of its file. */
export function picturesOf(page: Page): { file: string; svg: string; description: string }[] {
  return page.blocks.flatMap((block) =>
    block.kind === 'picture' && block.file !== undefined
      ? [{ file: block.file, svg: block.svg, description: block.description }]
      : [],
  );
}

function tell({ scenario, data: { answer } }: BriefInput): Told {
  switch (answer.kind) {
    case 'one more':
      return tellOneMore(scenario, answer.one);
    case 'options':
      return tellOptions(scenario, answer);
    case 'limits':
      return tellLimits(scenario, answer.each, answer.usual);
    case 'crew':
      return tellCrew(scenario, answer.plan);
  }
}

/** The answer, and when it pays back where that is sure. */
function headline({ scenario }: BriefInput, { headline: [first, ...rest], bought }: Told): string {
  const returned = bought === null ? null : returnOf(scenario, bought);
  const pays = returned?.payback.kind === 'pays back' ? [`It ${paybackWords(returned.payback)}.`] : [];
  return [first, ...pays, ...rest].join(' ');
}

/** What to do before anything is bought, what to buy then, what to leave. */
const first = ({ scenario, data: { ledger } }: BriefInput): Block[] =>
  ledger === null ? [] : [listOf(doFirst(scenario, ledger))];

/** Of what is to be done, where a sheet has no room, what is first and what is bought. */
const listOf = (items: string[]): Block => ({
  kind: 'list',
  items,
  spare: { turn: 6, instead: { kind: 'list', items: items.slice(0, 2) } },
});

function says({ scenario, data: { answer, reach } }: BriefInput, told: Told): Block[] {
  const target = (answer.kind === 'crew' ? answer.plan.result.target?.units : scenario.shift?.target) ?? null;
  const out =
    target === null || reach === null ? null : outOfReachSentence(target, reach.ceiling, reach.alwaysSame);
  const texts = [
    ...told.says,
    ...told.then,
    ...(out === null ? [] : [answer.kind === 'crew' ? out : `As it is, ${out}`]),
  ];
  return texts.length === 0
    ? []
    : [
        {
          ...paragraph(texts.join(' ')),
          spare: { turn: 4, instead: answer.kind === 'crew' ? paragraph(texts[0]!) : null },
        },
      ];
}

/** The picture that shows why: the question's own where it has one, else the staircase. */
function why({ scenario, data, again: { seed } }: BriefInput, told: Told): Block[] {
  const own = told.figures.filter((block) => block.kind === 'picture');
  if (own.length > 0) return own;
  const stood = data.stood === null ? '' : stoodSentence(data.stood, resolve(scenario));
  const reasons: Block[] = stood === '' ? [] : [{ ...paragraph(stood), spare: { turn: 3, instead: null } }];
  if (data.staircase === null) return told.instead === null ? reasons : [told.instead, ...reasons];
  return [
    { kind: 'heading', level: 2, text: 'Why: what averages leave out' },
    ...staircaseBlocks(
      data.staircase,
      seed,
      {
        naive: naiveNumber(resolve(scenario))?.units ?? null,
        ceiling: data.reach?.ceiling ?? NaN,
      },
      told.leads ?? undefined,
    ),
    ...reasons,
  ];
}

/** Figures that are no picture; in a column they stand beside what they cost. */
const tables = ({ figures }: Told): Column => figures.filter((block) => block.kind === 'table');

const sure = ({ record }: BriefInput, told: Told): Column => [
  { kind: 'heading', level: 2, text: 'How sure' },
  { ...paragraph(told.sure), spare: { turn: 3, instead: paragraph(firstSentence(told.sure)) } },
  ...(record === undefined ? [] : [paragraph(recordWords(record))]),
];

/** Was it ever right: what came against what was forecast of this cell. */
function recordWords({ count, inside, lean, claimed }: LogCoverage): string {
  if (count === 0)
    return 'Was it right before? Nobody has held its forecasts against what came yet; the log does.';
  const off =
    Math.abs(lean.estimate) < 0.05
      ? 'ran neither high nor low'
      : `ran ${fixed(Math.abs(lean.estimate), 1)} ${lean.estimate < 0 ? 'high' : 'low'}`;
  const surely = lean.low > 0 || lean.high < 0 ? '' : ', which may be chance';
  return `Was it right before? Over ${counted(count, 'day')} the forecasts ${off} on average${surely}; ${plain(inside)} of ${plain(count)} came inside their range, where ${percent(claimed)} should.`;
}

function costs({ scenario }: BriefInput, told: Told): Column {
  const facts = told.bought === null ? told.costs : moneyFacts(scenario, told.bought);
  return facts.length === 0
    ? []
    : [
        {
          kind: 'heading',
          level: 2,
          text: told.bought === null ? 'What it costs' : 'What it costs, when it pays back',
        },
        {
          kind: 'facts',
          facts,
          spare: { turn: 1, instead: { kind: 'facts', facts: facts.filter(({ name }) => KEPT.has(name)) } },
        },
      ];
}

/** Facts on money that stay on a full sheet. */
const KEPT = new Set(['Price', 'Extra good units', 'Wages', 'Overtime', 'Pays back']);

type Column = Extract<Block, { kind: 'columns' }>['columns'][number];

function change({ scenario, data }: BriefInput, told: Told): Column {
  const standing = standingOf(data, told);
  const hangs =
    data.sensitivity === null || standing === null ? [] : hangsSentences(data.sensitivity, standing);
  const money = told.bought === null ? [] : moneyMoves(scenario, told.bought);
  const items = [...hangs, ...money];
  const fewer = { kind: 'list' as const, items: hangs.length > 0 ? hangs.slice(0, 1) : money.slice(0, 1) };
  return items.length === 0
    ? []
    : [
        { kind: 'heading', level: 2, text: 'What would change the answer' },
        { kind: 'list', items, spare: { turn: 2, instead: fewer } },
      ];
}

function standingOf({ answer }: BriefInput['data'], told: Told): Standing | null {
  if (answer.kind === 'crew') {
    const { target } = answer.plan.result;
    return {
      kind: 'makes',
      target: target?.units ?? null,
      asked: answer.plan.asked,
      chance: target === null ? null : asPromised(target.chance),
    };
  }
  return told.gain === null ? null : { kind: 'gain', gain: told.gain };
}

function assumptions({ scenario, data: { answer } }: BriefInput, told: Told): Column {
  const cell = answer.kind === 'crew' ? answer.plan.scenario : scenario;
  const pays = told.bought !== null && told.bought.price !== null;
  const text = (brief: boolean): Column[number] => ({
    kind: 'paragraph',
    text: assumptionsOf(cell, pays, brief).join(' '),
    small: true,
  });
  return [
    { kind: 'heading', level: 2, text: 'Taken for granted' },
    { ...text(false), spare: { turn: 1, instead: text(true) } },
  ];
}

/**
 * Each caution once, for every cell on the page; where its figures come from stands in the program's own
 * answers.
 */
function cautions({ cells }: Told): Block[] {
  const texts = [...new Set(cells.flatMap(cautionsFor).map(({ text }) => text))];
  // No sheet goes out without any: where there is no room, who decides what stands in one line.
  const instead: Block = { kind: 'paragraph', text: IN_SHORT, small: true };
  return [
    { kind: 'heading', level: 2, text: 'Cautions' },
    { kind: 'paragraph', text: texts.join(' '), small: true, spare: { turn: 4, instead } },
  ];
}

const firstSentence = (text: string): string => /^.*?[.!?](?= |$)/s.exec(text)?.[0] ?? text;

function notes(given = ''): Block[] {
  const lines = given
    .split(/\r?\n/)
    .map((line) => line.trim())
    .filter((line) => line !== '');
  return lines.length === 0 ? [] : [{ kind: 'heading', level: 2, text: 'Notes' }, ...lines.map(paragraph)];
}

function again(
  { scenario, again: { file, version, seed, command, made }, data: { answer } }: BriefInput,
  told: Told,
): Block[] {
  const count = answer.kind === 'crew' ? answer.plan.result.count : studyOf(answer).count;
  const inARow = 1 + (scenario.nextShifts?.length ?? 0);
  // The command comes last: what stands behind it would be typed along with it.
  const day = made === undefined ? '' : `${scenario.name}, made on ${made}. `;
  const where = `${day}The same numbers again: file ${file}, seed “${seed}”, ${runsOf(count, inARow)} of ${told.gain === null ? 'the plan' : 'each choice'}, clampwright ${version}`;
  return [
    {
      kind: 'paragraph',
      small: true,
      text: `${where}${command === null ? '.' : `: ${command}`}`,
    },
  ];
}
