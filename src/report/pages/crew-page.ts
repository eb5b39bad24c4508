/** The answer of "crew": the sheet, what it makes and costs, what it leans on, and how it was found. */
import { nameOf, resolve, resolvePlant } from '../../scenario/resolve.ts';
import {
  absenceTable,
  answerSentences,
  exposureSentences,
  leanSentences,
  moneySentence,
  overtimeTable,
  runnerUpSentences,
  searchSentences,
  TRAINING_NOTE,
  trainingTable,
  triedSentences,
  wouldDoTable,
} from '../crew-words.ts';
import { besideTable, chosenBySentence, movesSentences } from '../crew-moves.ts';
import { clockIn, sheetBlocks } from '../crew-sheet.ts';
import type { Block, Page } from '../../document/document.ts';
import { differenceSentence } from '../../words/sentences.ts';
import { holdsBackSentence } from '../../words/verdicts.ts';
import type { CrossTraining } from '../../staffing/cross-training.ts';
import type { CrewPlan } from '../../staffing/plan-crew.ts';
import type { TriedChange } from '../../staffing/try-change.ts';
import type { Caution } from '../../scenario/cautions.ts';
import { differenceThatMatters } from '../../study/from-scenario.ts';
import type { Input } from '../input.ts';
import { bestWords, eachTable } from './each.ts';
import { foot, openingWords, type Repeat } from './foot.ts';
import { meanSureSentence } from './sentences.ts';

export interface CrewPage {
  input: Input;
  /** Which day it is for, in a sentence; null: no day in particular. */
  day: string | null;
  plan: CrewPlan;
  tried: Extract<TriedChange, { kind: 'tried' }> | null;
  training: CrossTraining | null;
  /** Say by which procedures it was found. */
  how: boolean;
  cautions: Caution[];
  repeat: Repeat;
}

const text = (words: string): Block => ({ kind: 'paragraph', text: words });
/** How well the mean of the plan is known, and what would narrow it. */
export const crewSure = ({ study }: CrewPlan): string => meanSureSentence(study, study.cases[0]!.good);

const part = (words: string): Block => ({ kind: 'heading', level: 2, text: words });

export function crewPage({ input, day, plan, tried, training, how, cautions, repeat }: CrewPage): Page {
  const currency = resolvePlant(input.scenario).money.currency;
  const offered = plan.kind !== 'over the limit';
  const title = `${plan.cell}: the crew`;
  return {
    title,
    blocks: [
      { kind: 'heading', level: 1, text: title },
      text(answerSentences(plan).join(' ')),
      ...(offered ? movesBlocks(plan, currency) : []),
      ...(offered
        ? [text(`${moneySentence(plan, currency)} ${chosenBySentence(plan, currency)}`), text(crewSure(plan))]
        : []),
      ...heldBack(input, plan),
      ...(day === null ? [] : [text(day)]),
      text(openingWords(input)),
      ...(tried === null ? [] : [part('Your change'), ...triedBlocks(input, plan, tried, currency)]),
      part(offered ? 'The sheet' : 'The file’s posts: not a plan'),
      ...sheetBlocks(plan.sheet),
      ...overtimeTable(plan, currency),
      ...besideTable(plan, currency),
      ...againstFile(plan),
      part('What it leans on'),
      { kind: 'list', items: [...leanSentences(plan), ...exposureSentences(plan)] },
      ...(plan.absences === null ? [] : [absenceTable(plan.absences, plan.target)]),
      ...(plan.wouldDo === null || plan.target === null
        ? []
        : wouldDoTable(plan.wouldDo, plan.target, currency)),
      ...(plan.constraint === null || plan.constraint.study.kind !== 'final'
        ? []
        : eachTable(
            plan.constraint,
            input.scenario,
            'One more of each thing, alone, with the plan’s posts: good units a shift.',
          )),
      ...(training === null
        ? []
        : [part('Second skills'), trainingTable(training, currency), text(TRAINING_NOTE)]),
      part('How it was found'),
      ...searchSentences(plan, currency, how).map(text),
      ...(plan.runnerUp === null
        ? [text(runnerUpSentences(plan, currency).join(' '))]
        : runnerUpBlocks(plan, currency)),
      ...foot(input, repeat, cautions),
    ],
  };
}

function heldBack({ scenario }: Input, { constraint }: CrewPlan): Block[] {
  if (constraint === null || constraint.study.kind !== 'final') return [];
  const matters = differenceThatMatters(scenario);
  return [
    text(
      `${holdsBackSentence(constraint.constraint, matters)}${constraint.constraint.length === 0 ? '' : ` ${bestWords(constraint, matters)}`}`,
    ),
  ];
}

function triedBlocks(
  { scenario }: Input,
  plan: CrewPlan,
  tried: NonNullable<CrewPage['tried']>,
  currency: string,
): Block[] {
  const { people, steps } = resolve(scenario);
  const names = (id: string): string => nameOf([...people, ...steps], id);
  return [
    { kind: 'list', items: triedSentences(tried, differenceThatMatters(plan.scenario), currency, names) },
  ];
}

const movesBlocks = (plan: CrewPlan, currency: string): Block[] => [
  { kind: 'list', items: movesSentences(plan, currency) },
];

/** What the plan gains over the file's own posts. */
function againstFile({ filed, kind }: CrewPlan): Block[] {
  if (filed.isPlan || kind === 'over the limit') return [];
  return [
    text(
      `Against the posts as the file has them: ${differenceSentence({ kind: 'thing', words: 'the plan' }, filed.gain.good)}`,
    ),
  ];
}

function runnerUpBlocks(plan: CrewPlan, currency: string): Block[] {
  const { sheet } = plan.runnerUp!;
  const clock = clockIn(sheet);
  const mine = new Map(
    plan.sheet.people.map((person) => [
      person.id,
      JSON.stringify([person.posts, person.breaks, person.overtime, person.rule]),
    ]),
  );
  const differs = sheet.people.filter(
    (person) =>
      mine.get(person.id) !== JSON.stringify([person.posts, person.breaks, person.overtime, person.rule]),
  );
  const posts = differs.map(
    (person) =>
      `${person.name} ${person.posts.map((post, at) => `${at === 0 ? '' : `from ${clock(post.from)} `}${post.steps.map((step) => step.name).join(', ')}`).join('; ')}${person.overtime > 0 ? `, overtime up to ${person.overtime} min` : ''}`,
  );
  return [
    text(
      `The runner-up${posts.length === 0 ? ' has the same posts' : ` differs in ${posts.join(' | ')}`}. ${runnerUpSentences(plan, currency).join(' ')}`,
    ),
  ];
}
