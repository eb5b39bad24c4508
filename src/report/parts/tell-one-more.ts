/** "What does one more of this do?" as the page tells it. */
import type { Scenario } from '../../scenario/schema.ts';
import { ONE_MORE, type OneMoreAnswer } from '../../study/clamp-question.ts';
import { moreGear } from '../../scenario/changing/more.ts';
import type { CaseSummary } from '../../study/summary.ts';
import type { TableBlock } from '../../document/document.ts';
import { toTell } from '../pages/more-page.ts';
import { differenceSentence } from '../../words/sentences.ts';
import {
  chanceHead,
  chanceWords,
  differenceCell,
  studySure,
  shiftsInARow,
  spreadCaption,
  spreadCells,
} from '../../words/study-words.ts';
import { holdsBackSentence, soFar, verdictSentence } from '../../words/verdicts.ts';
import { inSentence, ordinal, plural, rangeText, singular, withArticle } from '../../words/words.ts';
import { usualPair } from '../../study/usual-days.ts';
import { casesPicture } from './cases-picture.ts';
import { bestOf } from './tell-limits.ts';
import { lowered, NOTHING_RUN, type Told } from './told.ts';

export function tellOneMore(scenario: Scenario, one: OneMoreAnswer): Told {
  const { gear, study, gain, nextGain, matters } = one;
  const nth = (more: number): string =>
    withArticle(`${ordinal(gear.count + more)} ${inSentence(singular(gear.name))}`);
  const names = study.cases.map((_, more) => `${gear.count + more} ${plural(inSentence(gear.name))}`);
  return {
    question: `What does ${nth(1)} do at ${scenario.name}, does it pay, and what holds us back then?`,
    headline: headlineOf(one, nth(1)),
    says: study.count === 0 ? [] : saysOf(one, nth(2)),
    figures: study.count === 0 ? [] : [casesTable(study.cases, names)],
    instead:
      study.count < 2
        ? null
        : casesPicture(
            study,
            `More ${plural(inSentence(gear.name))} at ${scenario.name}`,
            [differenceCell(gain), `${differenceCell(nextGain)} over the row above`],
            names,
          ),
    wide: false,
    leads:
      one.verdict === null || (gain.low <= 0 && gain.high >= 0)
        ? null
        : { word: `with ${nth(1)}`, units: study.cases[1]!.good.estimate, gain: gain.estimate },
    bought:
      one.verdict === null
        ? null
        : {
            price: gear.price,
            pair: usualPair(one.usual, ONE_MORE) ?? study.pairs[0]!,
            usual: one.usual,
            tomorrow: gain,
          },
    costs: [],
    then: [...toTell(one), ...thenOf(one)],
    sure: studySure(study),
    gain: one.verdict === null ? null : { subject: { kind: 'thing', words: nth(1) }, range: gain, matters },
    cells: [moreGear(scenario, gear.id, 1)],
  };
}

function headlineOf(one: OneMoreAnswer, nth: string): string[] {
  const { gear, gain, nextGain, matters, verdict, study } = one;
  const subject = { kind: 'thing' as const, words: nth };
  if (study.count === 0) return [NOTHING_RUN];
  if (verdict === null)
    return [
      `PARTIAL: stopped by hand, so no verdict is given. ${soFar(differenceSentence(subject, gain), study.count, gain.inARow)}`,
    ];
  const first = differenceSentence(subject, gain, { kind: 'units' }, matters);
  if (!Number.isFinite(gain.half)) return [first];
  const constraint = constraintOf(one);
  if (verdict.kind === 'cannot tell yet' && verdict.open === 'next')
    return [
      first,
      `Whether ${plural(inSentence(gear.name))} still hold you back after that cannot be told yet.`,
    ];
  switch (verdict.kind) {
    case 'removes':
      return [first, ...(constraint === null ? [] : [holdsBackSentence(constraint, matters, 'Then')])];
    case 'eases':
      return [first, `Even so, ${plural(inSentence(gear.name))} still hold you back.`];
    default:
      return [
        verdictSentence(verdict, {
          thing: gear.name,
          place: gear.count + 1,
          gain,
          nextGain,
          matters,
          constraint,
        }),
      ];
  }
}

const constraintOf = ({ then }: OneMoreAnswer): string[] | null =>
  then !== null && then.study.kind === 'final' ? then.constraint : null;

function saysOf({ study, verdict, nextGain, matters, gear }: OneMoreAnswer, next: string): string[] {
  const [now, more] = study.cases.map(chanceWords) as [string | null, string | null];
  const after = { kind: 'thing' as const, words: `${next} on top of that` };
  return [
    ...(now === null || more === null || study.cases[0]!.shifts.length > 1
      ? []
      : [
          `As it is: ${lowered(now)} With ${gear.count + 1} ${plural(inSentence(gear.name))}: ${lowered(more)}`,
        ]),
    ...(verdict?.kind === 'removes' ||
    verdict?.kind === 'eases' ||
    (verdict?.kind === 'cannot tell yet' && verdict.open === 'next')
      ? [differenceSentence(after, nextGain, { kind: 'units' }, matters)]
      : []),
  ];
}

function thenOf(one: OneMoreAnswer): string[] {
  const { then, verdict, matters, gear } = one;
  if (verdict === null || then === null || then.study.kind !== 'final') return [];
  // The heading has said what holds the cell back then.
  if (verdict.kind === 'removes') return [bestOf(then, matters, 'then')].filter((words) => words !== '');
  const begin = then.withOneMore
    ? `Once there are ${gear.count + 1} ${plural(inSentence(gear.name))},`
    : 'As it is,';
  return [holdsBackSentence(then.constraint, matters, begin), bestOf(then, matters)].filter(
    (words) => words !== '',
  );
}

/** One row a case: what nine, five and one shift in ten make, the chance of what is due, the mean. */
export function casesTable(cases: CaseSummary[], names: string[]): TableBlock {
  const chance = cases.some((one) => one.target === null) ? [] : [chanceHead(cases)];
  const shifts = shiftsInARow({ cases });
  return {
    kind: 'table',
    caption: shifts === 1 ? 'Good units that 9 shifts in 10, half, and 1 in 10 make' : spreadCaption(shifts),
    head: ['', '9 in 10', 'Half', '1 in 10', ...chance, shifts === 1 ? 'Mean' : 'Mean a shift'],
    rows: cases.map((one, i) => {
      const { estimate, range } = rangeText(one.good);
      const cells = spreadCells(one);
      return [
        names[i]!,
        ...(chance.length === 0 ? cells.slice(0, 3) : cells),
        `${estimate}${range === '' ? '' : ` (${range})`}`,
      ];
    }),
    align: ['left', 'right', 'right', 'right', ...chance.map((): 'right' => 'right'), 'right'],
  };
}
