/** "What holds us back?" as the page tells it. */
import { resolvePlant } from '../../scenario/resolve.ts';
import type { Scenario } from '../../scenario/schema.ts';
import { differenceThatMatters } from '../../study/from-scenario.ts';
import { extrasOf, type ExtraGain, type OneMoreOfEach } from '../../study/one-more.ts';
import type { TableBlock } from '../../document/document.ts';
import { limitsPicture } from '../../charts/index.ts';
import { differenceSentence } from '../../words/sentences.ts';
import { gainCell } from '../../words/alike.ts';
import { studySure } from '../../words/study-words.ts';
import { holdsBackSentence, soFar } from '../../words/verdicts.ts';
import { money } from '../../words/words.ts';
import { usualPair, type OnUsualDays } from '../../study/usual-days.ts';
import { PICTURE_WIDTH } from './staircase.ts';
import { NOTHING_RUN, type PictureBlock, type Told } from './told.ts';

const ROWS = 5;
/** Of them where a sheet has no room for more. */
const FEWER = 3;

export function tellLimits(scenario: Scenario, each: OneMoreOfEach, usual: OnUsualDays | null): Told {
  const { study, rows } = each;
  const matters = differenceThatMatters(scenario);
  const best = rows[0];
  const pair = study.pairs.find((one) => one.after === best?.id);
  const final = study.kind === 'final';
  return {
    question: `What holds us back at ${scenario.name}, and what would one more of each thing buy?`,
    headline: headlineOf(each, matters),
    says: [],
    figures:
      study.count === 0
        ? []
        : [
            {
              ...gainsTable(scenario, rows.slice(0, ROWS)),
              spare: { turn: 5, instead: gainsTable(scenario, rows.slice(0, FEWER)) },
            },
          ],
    instead: study.count < 2 || best === undefined ? null : picture(scenario, each),
    wide: false,
    leads:
      !final || best === undefined || best.gain.low <= 0
        ? null
        : {
            word: `with ${best.name}`,
            units: study.cases[0]!.good.estimate + best.gain.estimate,
            gain: best.gain.estimate,
          },
    bought:
      !final || best === undefined || pair === undefined || best.gain.low <= 0
        ? null
        : {
            price: best.price,
            pair: usualPair(usual, best.id) ?? pair,
            usual,
            tomorrow: pair.good,
          },
    costs: [],
    then: [],
    sure: studySure(study),
    gain:
      !final || best === undefined
        ? null
        : { subject: { kind: 'thing', words: best.name }, range: best.gain, matters },
    cells: [
      scenario,
      ...extrasOf(scenario).flatMap((extra) => (extra.id === best?.id ? [extra.scenario] : [])),
    ],
  };
}

function headlineOf({ study, rows, constraint }: OneMoreOfEach, matters: number): string[] {
  const best = rows[0];
  if (study.count === 0) return [NOTHING_RUN];
  if (best === undefined) return ['There is nothing in this file to have one more of.'];
  const gains = differenceSentence(
    { kind: 'thing', words: best.name },
    best.gain,
    { kind: 'units' },
    matters,
  );
  if (study.kind !== 'final')
    return [
      `PARTIAL: stopped by hand, so nothing is named as what holds you back. ${soFar(gains, study.count, best.gain.inARow)}`,
    ];
  return [`${holdsBackSentence(constraint, matters)} ${gains}`];
}

function picture(scenario: Scenario, { study, rows }: OneMoreOfEach): PictureBlock {
  const shown = rows.slice(0, ROWS).map((row) => ({
    name: row.name,
    gain: row.gain.estimate,
    low: row.gain.low,
    high: row.gain.high,
    words: gainCell(row.gain, differenceThatMatters(scenario)),
  }));
  const description = `What one more of each thing buys, good units a shift: ${shown.map(({ name, words }) => `${name} ${words}`).join('; ')}.`;
  const data = {
    title: `One more of each thing at ${scenario.name}`,
    description,
    rows: shown,
    matters: differenceThatMatters(scenario),
    foot: { shifts: study.count, seed: study.seed, unit: 'good units a shift' },
  };
  return {
    kind: 'picture',
    file: 'limits.svg',
    description,
    svg: limitsPicture(data, { width: PICTURE_WIDTH, id: 'limits' }),
  };
}

/** What gains most then: "Another Orla, bench included, adds 2.0 units a shift (1.7 to 2.3)." */
export function bestOf({ rows }: OneMoreOfEach, matters: number, begin = ''): string {
  const [best] = rows;
  return best === undefined
    ? ''
    : differenceSentence(
        { kind: 'thing', words: `${begin} ${best.name}`.trim() },
        best.gain,
        { kind: 'units' },
        matters,
      );
}

const gainsTable = (scenario: Scenario, rows: readonly ExtraGain[]): TableBlock => ({
  kind: 'table',
  caption: 'One more of each thing, alone; the most first',
  head: ['One more', 'Units a shift', 'Price'],
  align: ['left', 'right', 'right'],
  rows: rows.map((row) => [
    row.name,
    gainCell(row.gain, differenceThatMatters(scenario)),
    row.price === null || row.price === 0 ? '-' : money(row.price, resolvePlant(scenario).money.currency),
  ]),
});
