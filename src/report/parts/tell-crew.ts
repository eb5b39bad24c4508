/** A crew plan as the page tells it. */
import { resolvePlant } from '../../scenario/resolve.ts';
import type { Scenario } from '../../scenario/schema.ts';
import { comparisonPicture } from '../../charts/index.ts';
import { chanceSentence, makesSentence, promisesSentence } from '../../words/sentences.ts';
import { overtimeSentence } from '../../words/verdicts.ts';
import { mindSentence, narrowingSentence, partsOfRange } from '../../words/input-words.ts';
import { chanceFrom } from '../../words/study-words.ts';
import { counted, fixed, money, moneyRange, percent, plain, rangeText, roundUp } from '../../words/words.ts';
import type { CrewPlan } from './data.ts';
import { PICTURE_WIDTH } from './staircase.ts';
import { valuesOf } from './cases-picture.ts';
import { dayBlock } from '../wall-sheet.ts';
import type { Told } from './told.ts';

export function tellCrew(scenario: Scenario, plan: CrewPlan): Told {
  const { result, sheet, answer, remarks } = plan;
  const target = result.target?.units ?? null;
  const day = (how: Parameters<typeof dayBlock>[1] = {}): ReturnType<typeof dayBlock> => {
    const block = dayBlock(sheet, how);
    return { ...block, table: { ...block.table!, caption: 'Who stands where' } };
  };
  return {
    question:
      target === null
        ? `Who stands where at ${scenario.name}, and what can be promised?`
        : `Do we make ${plain(target)} at ${scenario.name}, and who stands where?`,
    headline: answer.slice(0, 1),
    says: [...answer.slice(1), ...remarks],
    figures: [
      // The answer says what it shows: where there is no room for both, who stands where stays.
      { ...picture(scenario, plan), spare: { turn: 3, instead: null } },
      { ...day(), spare: { turn: 5, instead: day({ size: LEAST_IN_PICTURE, keyed: false }) } },
    ],
    instead: null,
    wide: true,
    leads: null,
    bought: null,
    costs: costsOf(scenario, plan),
    then: [],
    sure: sureOf(plan),
    gain: null,
    cells: [plan.scenario],
  };
}

/** Of the words in the picture of a large crew on a full sheet, points. */
const LEAST_IN_PICTURE = 7;

function costsOf(scenario: Scenario, { result }: CrewPlan): Told['costs'] {
  const { estimate, range } = moneyRange(result.cost, resolvePlant(scenario).money.currency);
  const paid = result.cost.high > 0;
  const each =
    result.good.estimate > 0
      ? `, ${money(result.cost.estimate / result.good.estimate, resolvePlant(scenario).money.currency, 2)} a good unit`
      : '';
  const { overtimeChance } = result;
  return [
    {
      name: 'Wages',
      value: paid
        ? `${estimate} a shift${range === '' ? '' : ` (${range})`}${each}.`
        : 'The file names no pay.',
    },
    {
      name: 'Overtime',
      value: overtimeSentence({
        shifts: Math.round(overtimeChance.estimate * overtimeChance.count),
        count: overtimeChance.count,
        minutes: result.overtime,
      }),
    },
  ];
}

function sureOf({ result, confidence, inputs }: CrewPlan): string {
  const half = Number.isFinite(result.good.half)
    ? `the mean is known to within ${fixed(roundUp(result.good.half, 2), 2)} units a shift, ${percent(confidence, 'down')} sure: ${partsOfRange(result.good, inputs)}`
    : 'the mean is not known yet';
  const narrower = narrowingSentence(result.hangsOn, inputs, result.good.half);
  const mind = mindSentence(inputs);
  return [
    `From ${counted(result.count, 'shift')} of this plan: ${half}.`,
    ...(narrower === null ? [] : [narrower]),
    ...(mind === null ? [] : [mind]),
    makesSentence(result.good),
  ].join(' ');
}

function picture(scenario: Scenario, { result }: CrewPlan): Told['figures'][number] {
  const target = result.target?.units ?? null;
  const words =
    target === null
      ? `${rangeText(result.good).estimate} on average`
      : chanceSentence(target, chanceFrom(result.target!.chance));
  const description = `Good units a shift with this crew: ${promisesSentence(result.spread)} ${words}`;
  const rows = [
    {
      name: 'This crew',
      values: valuesOf(result.spread.counts),
      mean: result.good.estimate,
      low: result.good.low,
      high: result.good.high,
      words,
    },
  ];
  return {
    kind: 'picture',
    file: 'crew.svg',
    description,
    svg: comparisonPicture(
      {
        title: `The plan at ${scenario.name}`,
        description,
        rows,
        target,
        foot: { shifts: result.count, unit: 'good units a shift' },
      },
      { width: PICTURE_WIDTH, id: 'crew' },
    ),
  };
}
