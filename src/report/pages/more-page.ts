/**
 * The answer to "what does one more of this do": removes, eases, was not the constraint, cannot tell yet; and
 * what then.
 */
import { resolvePlant } from '../../scenario/resolve.ts';
import type { Block, Page } from '../../document/document.ts';
import { toTellSentence } from '../../words/input-words.ts';
import { paybackWords } from '../../words/option-words.ts';
import { differenceSentence } from '../../words/sentences.ts';
import {
  chanceHead,
  differenceCell,
  studySure,
  shiftsInARow,
  spreadCaption,
  spreadCells,
} from '../../words/study-words.ts';
import { stockWords, tonightWords, usualDaysWords } from '../../words/usual-words.ts';
import { holdsBackSentence, soFar, verdictSentence } from '../../words/verdicts.ts';
import { waysBlocks } from '../ways.ts';
import {
  capitalized,
  inSentence,
  ordinal,
  plural,
  rangeText,
  singular,
  withArticle,
} from '../../words/words.ts';
import type { Caution } from '../../scenario/cautions.ts';
import { shiftsOf } from '../../scenario/options.ts';
import { ONE_MORE, type OneMoreAnswer } from '../../study/clamp-question.ts';
import { usualPair } from '../../study/usual-days.ts';
import { moreGear } from '../../scenario/changing/more.ts';
import type { Verdict } from '../../study/verdict.ts';
import type { Input } from '../input.ts';
import { eachTable } from './each.ts';
import { foot, openingWords, type Repeat } from './foot.ts';
import { gearTable } from './tables.ts';

export interface MorePage {
  input: Input;
  answer: OneMoreAnswer;
  cautions: Caution[];
  repeat: Repeat;
}

export function morePage({ input, answer, cautions, repeat }: MorePage): Page {
  const { scenario } = input;
  const { gear, study, then } = answer;
  const title = `${scenario.name}: what does ${nth(answer)} do?`;
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
  const matters = resolvePlant(scenario).study.difference;
  return {
    title,
    blocks: [
      { kind: 'heading', level: 1, text: title },
      ...answerWords(answer),
      ...paysBack(input, answer),
      {
        kind: 'paragraph',
        text: studySure(study),
      },
      { kind: 'paragraph', text: openingWords(input) },
      choicesTable(answer),
      ...(then === null || then.study.kind !== 'final'
        ? []
        : eachTable(
            then,
            input.scenario,
            `One more of each thing, alone, ${then.withOneMore ? `once there are ${gear.count + 1} ${plural(gear.name)}` : 'with things as they are'}; differences of ${matters} matter.`,
          )),
      ...gearBlocks(input, answer),
      ...averagesBlocks(input, answer),
      ...foot(input, repeat, cautions),
    ],
  };
}

const nth = ({ gear }: OneMoreAnswer, more = 1): string =>
  withArticle(`${ordinal(gear.count + more)} ${singular(gear.name)}`);

/** The verdict in words, or what can be said before there is one. */
function answerWords(answer: OneMoreAnswer): Block[] {
  const { gear, gain, nextGain, matters, verdict, then, study } = answer;
  const text = (words: string): Block => ({ kind: 'paragraph', text: words });
  if (verdict === null) {
    return [
      text(
        `PARTIAL: stopped by hand, so no verdict is given. ${soFar(differenceSentence({ kind: 'thing', words: nth(answer) }, gain), study.count, gain.inARow)}`,
      ),
      text(
        soFar(
          differenceSentence({ kind: 'thing', words: `${nth(answer, 2)} on top of that` }, nextGain),
          study.count,
          nextGain.inARow,
        ),
      ),
    ];
  }
  const constraint = then !== null && then.study.kind === 'final' ? then.constraint : null;
  const more = { thing: gear.name, place: gear.count + 1, gain, nextGain, matters, constraint };
  const open =
    verdict.kind === 'cannot tell yet' && constraint !== null
      ? ` ${holdsBackSentence(constraint, matters, then!.withOneMore ? 'With it,' : '')}`
      : '';
  return [
    text(`${capitalized(nth(answer))} ${verdictWords(verdict)} ${verdictSentence(verdict, more)}${open}`),
    ...toTell(answer).map(text),
  ];
}

/** Where the verdict is open: what to time, and how often, so that it can be told. */
export function toTell({ verdict, study, gain, nextGain, matters }: OneMoreAnswer): string[] {
  if (verdict?.kind !== 'cannot tell yet') return [];
  const [range, pair] =
    verdict.open === 'this' ? [gain, study.pairs[0]!] : ([nextGain, study.pairs[1]!] as const);
  const words = toTellSentence(range, pair.hangsOn, study.inputs, matters);
  return words === null ? [] : [words];
}

function verdictWords(verdict: Verdict): string {
  switch (verdict.kind) {
    case 'removes':
      return 'removes the constraint.';
    case 'eases':
      return 'eases the constraint, which stays where it is.';
    case 'was not the constraint':
      return 'changes little: it was not the constraint.';
    case 'cannot tell yet':
      return 'cannot be judged yet.';
  }
}

/** When it pays back, on usual days: what those are, what stands in the cell, how tomorrow differs. */
function paysBack({ scenario }: Input, answer: OneMoreAnswer): Block[] {
  const { gear, gain, usual, verdict, matters } = answer;
  const pair = usualPair(usual, ONE_MORE);
  if (verdict === null || usual === null || pair === undefined) return [];
  const subject = { kind: 'thing' as const, words: nth(answer) };
  const texts = [
    `On ${usualDaysWords(usual)}: ${inSentence(differenceSentence(subject, pair.good, { kind: 'units' }, matters))}`,
    paybackWords(scenario, gear.price, pair),
    tonightWords(pair.good, gain, matters) ?? '',
    ...stockWords(usual, matters),
  ];
  return [{ kind: 'paragraph', text: texts.filter((one) => one !== '').join(' ') }];
}

function choicesTable({ gear, study, gain, nextGain }: OneMoreAnswer): Block {
  const gains = [null, gain, nextGain];
  const rows = study.cases.map((one, index) => {
    const difference = gains[index] ?? null;
    const { estimate, range } = rangeText(one.good);
    return [
      `${gear.count + index} ${plural(gear.name)}`,
      ...spreadCells(one),
      `${estimate} (${range})`,
      difference === null ? '-' : differenceCell(difference),
    ];
  });
  const target = study.cases[0]!.target;
  const shifts = shiftsInARow(study);
  const each = shifts > 1 ? ' a shift' : '';
  return {
    kind: 'table',
    caption: `${spreadCaption(shifts)}; then the mean, and the gain over the line above, with ranges.`,
    head: [
      '',
      '9 in 10',
      'Half',
      '1 in 10',
      ...(target === null ? [] : [chanceHead(study.cases)]),
      `Mean${each}`,
      `Gain${each}`,
    ],
    rows,
  };
}

/** What each set is doing, side by side for so many, one more, two more. */
function gearBlocks({ scenario }: Input, { gear, study }: OneMoreAnswer): Block[] {
  return shiftsOf(scenario).map((resolved, shift): Block =>
    gearTable(
      study.cases.map((one, more) => ({
        shift: one.shifts[shift]!,
        resolved,
        label: `of ${gear.count + more}`,
      })),
      resolved.gear.findIndex((one) => one.id === gear.id),
    ),
  );
}

/** What arithmetic with averages would have promised, beside what the shifts made. */
function averagesBlocks({ scenario }: Input, { gear, study }: OneMoreAnswer): Block[] {
  const cells = [0, 1, 2].map((more) => shiftsOf(more === 0 ? scenario : moreGear(scenario, gear.id, more)));
  if (cells[0]!.length > 1) return [];
  const ways = study.cases.map((one, more) => ({
    label: `${gear.count + more} ${plural(gear.name)}`,
    shift: cells[more]![0]!,
    made: one.good.estimate,
  }));
  return waysBlocks(ways);
}
