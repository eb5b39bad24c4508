/**
 * The brief: one page that can be carried upstairs. `makeBrief` runs what it needs; `buildBrief` turns the results into a page,
 * and does nothing else: the same input gives the same page.
 */
import { cautionsFor } from '../scenario/cautions.ts';
import { differenceThatMatters } from '../study/from-scenario.ts';
import type { Block, Page } from './document.ts';
import { assumptionsOf } from './parts/assumptions.ts';
import type { BriefInput } from './parts/data.ts';
import { hangsSentences, type Standing } from './parts/hangs.ts';
import { studyOf } from './parts/make.ts';
import { moneyFacts, moneyMoves } from './parts/money.ts';
import { staircaseBlocks } from './parts/staircase.ts';
import { tellCrew } from './parts/tell-crew.ts';
import { tellLimits } from './parts/tell-limits.ts';
import { tellOneMore } from './parts/tell-one-more.ts';
import { tellOptions } from './parts/tell-options.ts';
import { paragraph, type Told } from './parts/told.ts';
import { outOfReachSentence } from './sentences.ts';
import { plain } from './words.ts';

export { makeBrief, type BriefOptions, type BriefStage } from './parts/make.ts';
export type { Again, BriefAnswer, BriefData, BriefInput, BriefQuestion, CrewPlan } from './parts/data.ts';

/** The page. */
export function buildBrief(input: BriefInput): Page {
  const told = tell(input);
  const title = input.title?.trim() || told.question;
  return {
    title,
    blocks: [
      { kind: 'paragraph', text: title, small: true },
      ...(title === told.question ? [] : [{ kind: 'paragraph' as const, text: `The question: ${told.question}`, small: true }]),
      { kind: 'heading', level: 1, text: told.headline },
      ...says(input, told),
      ...why(input, told),
      ...told.figures.filter((block) => block.kind !== 'picture'),
      { kind: 'columns', columns: [costs(input, told), change(input, told)] },
      ...notes(input.notes),
      { kind: 'columns', columns: [assumptions(input, told), cautions(told)] },
      ...again(input, told),
    ],
  };
}

/** The pictures of a page, each with the name of its file. */
export function picturesOf(page: Page): { file: string; svg: string; description: string }[] {
  return page.blocks.flatMap((block) => (block.kind === 'picture' && block.file !== undefined ? [{ file: block.file, svg: block.svg, description: block.description }] : []));
}

function tell({ scenario, data: { answer } }: BriefInput): Told {
  switch (answer.kind) {
    case 'one more': return tellOneMore(scenario, answer.one);
    case 'options': return tellOptions(scenario, answer);
    case 'limits': return tellLimits(scenario, answer.each);
    case 'crew': return tellCrew(scenario, answer.plan);
  }
}

function says({ scenario, data: { answer, reach } }: BriefInput, told: Told): Block[] {
  const target = (answer.kind === 'crew' ? answer.plan.result.target?.units : scenario.shift?.target) ?? null;
  const out = target === null || reach === null ? null : outOfReachSentence(target, reach.ceiling, reach.alwaysSame);
  const texts = [...told.says, ...(out === null ? [] : [`As it is, ${out}`])];
  return texts.length === 0 ? [] : [paragraph(texts.join(' '))];
}

/** The picture that shows why: the question's own where it has one, else the staircase. */
function why({ data, again: { seed } }: BriefInput, told: Told): Block[] {
  const own = told.figures.filter((block) => block.kind === 'picture');
  if (own.length > 0) return own;
  return data.staircase === null ? [] : [{ kind: 'heading', level: 2, text: 'Why: what averages leave out' }, ...staircaseBlocks(data.staircase, seed)];
}

function costs({ scenario }: BriefInput, told: Told): Column {
  const facts = told.bought === null ? told.costs : moneyFacts(scenario, told.bought);
  return [
    ...(facts.length === 0 ? [] : [{ kind: 'heading' as const, level: 2 as const, text: told.bought === null ? 'What it costs' : 'What it costs, when it pays back' }, { kind: 'facts' as const, facts }]),
    ...(told.then.length === 0 ? [] : [{ kind: 'heading' as const, level: 2 as const, text: 'What holds you back then' }, { kind: 'paragraph' as const, text: told.then.join(' ') }]),
  ];
}

type Column = Extract<Block, { kind: 'columns' }>['columns'][number];

function change({ scenario, data }: BriefInput, told: Told): Column {
  const standing = standingOf(data, told);
  const hangs = data.sensitivity === null || standing === null ? [] : hangsSentences(data.sensitivity, standing);
  const moves = told.bought === null ? [] : moneyMoves(scenario, told.bought);
  return [
    ...(hangs.length + moves.length === 0 ? [] : [
      { kind: 'heading' as const, level: 2 as const, text: 'What would change the answer' },
      { kind: 'list' as const, items: [...hangs, ...moves] },
    ]),
    { kind: 'heading', level: 2, text: 'How sure' },
    { kind: 'paragraph', text: told.sure },
  ];
}

function standingOf({ answer }: BriefInput['data'], told: Told): Standing | null {
  if (answer.kind === 'crew') {
    const { target } = answer.plan.result;
    return { kind: 'makes', target: target?.units ?? null, asked: answer.plan.asked, chance: target?.chance ?? null };
  }
  return told.gain === null ? null : { kind: 'gain', gain: told.gain };
}

function assumptions({ scenario, data: { answer } }: BriefInput, told: Told): Column {
  const cell = answer.kind === 'crew' ? answer.plan.scenario : scenario;
  const items = [
    ...assumptionsOf(cell, told.bought?.price !== null && told.bought !== null),
    ...(told.gain === null ? [] : [`Under ${plain(differenceThatMatters(scenario))} units a shift counts as no difference.`]),
  ];
  return [{ kind: 'heading', level: 2, text: 'Taken for granted' }, { kind: 'list', items }];
}

/** Each caution once, for every cell on the page; where its figures come from stands in the program's own answers. */
function cautions({ cells }: Told): Column {
  const items = [...new Set(cells.flatMap(cautionsFor).map(({ text }) => text))];
  return [{ kind: 'heading', level: 2, text: 'Cautions' }, { kind: 'list', items }];
}

function notes(given = ''): Block[] {
  const lines = given.split(/\r?\n/).map((line) => line.trim()).filter((line) => line !== '');
  return lines.length === 0 ? [] : [{ kind: 'heading', level: 2, text: 'Notes' }, ...lines.map(paragraph)];
}

function again({ again: { file, version, seed, command }, data: { answer } }: BriefInput, told: Told): Block[] {
  const count = answer.kind === 'crew' ? answer.plan.result.count : studyOf(answer).count;
  const where = `The same numbers again: file ${file}, seed “${seed}”, ${plain(count)} shifts of ${told.gain === null ? 'the plan' : 'each choice'}, clampwright ${version}`;
  return [{ kind: 'paragraph', small: true, text: `${where}${command === null ? '.' : `: ${command}`}` }];
}

