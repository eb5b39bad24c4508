/**
 * The brief: one page that can be carried upstairs. `makeBrief` runs what it needs; `buildBrief` turns the
 * results into a page, and does nothing else: the same input gives the same page.
 */
import { cautionsFor } from '../scenario/cautions.ts';
import { resolve } from '../scenario/resolve.ts';
import { naiveNumber } from '../study/ceilings/spreadsheet.ts';
import type { Block, Page } from '../document/document.ts';
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
import { outOfReachSentence } from '../words/sentences.ts';
import { plain } from '../words/words.ts';

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
          [...(told.wide ? [] : tables(told)), ...costs(input, told), ...sure(told)],
          [...change(input, told), ...assumptions(input, told)],
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
  ledger === null ? [] : [{ kind: 'list', items: doFirst(scenario, ledger) }];

function says({ scenario, data: { answer, reach } }: BriefInput, told: Told): Block[] {
  const target = (answer.kind === 'crew' ? answer.plan.result.target?.units : scenario.shift?.target) ?? null;
  const out =
    target === null || reach === null ? null : outOfReachSentence(target, reach.ceiling, reach.alwaysSame);
  const texts = [
    ...told.says,
    ...told.then,
    ...(out === null ? [] : [answer.kind === 'crew' ? out : `As it is, ${out}`]),
  ];
  return texts.length === 0 ? [] : [paragraph(texts.join(' '))];
}

/** The picture that shows why: the question's own where it has one, else the staircase. */
function why({ scenario, data, again: { seed } }: BriefInput, told: Told): Block[] {
  const own = told.figures.filter((block) => block.kind === 'picture');
  if (own.length > 0) return own;
  if (data.staircase === null) return told.instead === null ? [] : [told.instead];
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
  ];
}

/** Figures that are no picture; in a column they stand beside what they cost. */
const tables = ({ figures }: Told): Column => figures.filter((block) => block.kind === 'table');

const sure = (told: Told): Column => [{ kind: 'heading', level: 2, text: 'How sure' }, paragraph(told.sure)];

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
        { kind: 'facts', facts },
      ];
}

type Column = Extract<Block, { kind: 'columns' }>['columns'][number];

function change({ scenario, data }: BriefInput, told: Told): Column {
  const standing = standingOf(data, told);
  const hangs =
    data.sensitivity === null || standing === null ? [] : hangsSentences(data.sensitivity, standing);
  const items = [...hangs, ...(told.bought === null ? [] : moneyMoves(scenario, told.bought))];
  return items.length === 0
    ? []
    : [
        { kind: 'heading', level: 2, text: 'What would change the answer' },
        { kind: 'list', items },
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
  const items = assumptionsOf(cell, told.bought !== null && told.bought.price !== null);
  return [
    { kind: 'heading', level: 2, text: 'Taken for granted' },
    { kind: 'paragraph', text: items.join(' '), small: true },
  ];
}

/**
 * Each caution once, for every cell on the page; where its figures come from stands in the program's own
 * answers.
 */
function cautions({ cells }: Told): Block[] {
  const texts = [...new Set(cells.flatMap(cautionsFor).map(({ text }) => text))];
  return [
    { kind: 'heading', level: 2, text: 'Cautions' },
    { kind: 'paragraph', text: texts.join(' '), small: true },
  ];
}

function notes(given = ''): Block[] {
  const lines = given
    .split(/\r?\n/)
    .map((line) => line.trim())
    .filter((line) => line !== '');
  return lines.length === 0 ? [] : [{ kind: 'heading', level: 2, text: 'Notes' }, ...lines.map(paragraph)];
}

function again(
  { again: { file, version, seed, command }, data: { answer } }: BriefInput,
  told: Told,
): Block[] {
  const count = answer.kind === 'crew' ? answer.plan.result.count : studyOf(answer).count;
  const where = `The same numbers again: file ${file}, seed “${seed}”, ${plain(count)} shifts of ${told.gain === null ? 'the plan' : 'each choice'}, clampwright ${version}`;
  return [{ kind: 'paragraph', small: true, text: `${where}${command === null ? '.' : `: ${command}`}` }];
}
