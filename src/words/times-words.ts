/** What observations say about the times, as sentences. */
import { nameOf, resolve } from '../scenario/resolve.ts';
import type { Scenario } from '../scenario/schema.ts';
import { clockOfMinutes } from '../scenario/clock.ts';
import type { Doubt } from '../timing/doubts.ts';
import type { Drift } from '../timing/drift.ts';
import type { TimesForecast } from '../timing/forecast-times.ts';
import type { TimePlace } from '../timing/groups.ts';
import type { PlaceStudy } from '../timing/study-times.ts';
import { capitalized, counted, fixed, listed, percent } from './words.ts';

/** "sand", "sand, again", "fit, bent chair". */
export function placeName(scenario: Scenario, place: TimePlace): string {
  const { steps, products } = resolve(scenario);
  const product = place.product === null ? '' : `, ${nameOf(products, place.product)}`;
  return `${nameOf(steps, place.step)}${product}${place.repeat ? ', again' : ''}`;
}

/**
 * What is to be said of one place: the choice, how well it fits, how many more, what stands out, products and
 * people, the file's own time.
 */
export function placeSentences(
  given: Scenario,
  { fit, effects, drift, doubts, left }: PlaceStudy,
  withNames = false,
): string[] {
  const scenario = withNames ? given : withoutNames(given, effects, doubts);
  return [
    fit.why,
    ...goodnessSentence(fit),
    ...neededSentence(fit),
    ...outlierSentence(fit),
    ...leftSentence(left),
    ...effects.effects.map((effect) => named(scenario, effect.sentence, effect)),
    ...(effects.leftOut > 0
      ? [
          `${counted(effects.leftOut, 'time')} without a product or person ${effects.leftOut === 1 ? 'is' : 'are'} left out of that comparison.`,
        ]
      : []),
    driftSentence(scenario, drift, 'these times'),
    ...doubts.map((doubt) => `Mind: ${doubtSentence(scenario, doubt, withNames)}`),
  ];
}

/** What the range of an answer does not know, with what would mend it. */
export function doubtSentence(scenario: Scenario, doubt: Doubt, withNames = true): string {
  const { people } = resolve(scenario);
  const names = (ids: readonly string[]): string =>
    listed(ids.map((id) => people.find((one) => one.id === id)?.name ?? id));
  switch (doubt.kind) {
    case 'people differ':
      return `${names(doubt.people)} do not take the same time; give them their own pace in the file, or the range holds only for the mix that was timed.`;
    case 'whose':
      return `${withNames ? names(doubt.people) : counted(doubt.people.length, 'person')} work here, and the list does not say whose ${counted(doubt.untold, 'piece')} these are; if they differ, the range is too narrow. Write the name beside each time.`;
    case 'part of the day': {
      const [from, to, start, end] = [doubt.from, doubt.to, doubt.start, doubt.end].map((minutes) =>
        clockOfMinutes(Math.floor(minutes)),
      ) as [string, string, string, string];
      return `all were taken between ${from} and ${to}, and the day goes from ${start} to ${end}; if work is slower or quicker in the rest of it, the range does not know. Take some then.`;
    }
    case 'the hour matters':
      return `pieces take ${fixed(Math.abs(doubt.anHour - 1) * 100, 0)}% ${doubt.anHour > 1 ? 'longer' : 'less'} with each hour of the day; the range holds only if the times were taken all through it.`;
    case 'days differ':
      return `the ${counted(doubt.days, 'day')} of the list differ by more than luck; the range takes all pieces as one kind of day and is too narrow. Take times on more days.`;
    case 'one day':
      return `all were taken on ${doubt.day}; how other days differ from it is not in the range.`;
  }
}

function goodnessSentence({ chosen }: PlaceStudy['fit']): string[] {
  if (chosen?.goodness == null) return [];
  const { p } = chosen.goodness;
  const said = p < 0.05 ? 'so it is doubtful' : 'so it may stand';
  return [
    `If the curve were right, ${percent(p)} of lists would lie as far from it as these times, ${said} (Anderson and Darling’s distance).`,
  ];
}

function neededSentence({ needed, mean }: PlaceStudy['fit']): string[] {
  if (needed === null) return [];
  const reached = `The mean of ${fixed(mean, 1)} min is known to within ${percent(needed.reached, 'up')} at ${percent(needed.confidence)}`;
  if (needed.more === 0) return [`${reached}: enough for the ${percent(needed.precision)} asked for.`];
  return [
    `${reached}; for ${percent(needed.precision)} take ${counted(needed.more, 'more time')}, ${needed.inAll} in all.`,
  ];
}

function outlierSentence({ outliers }: PlaceStudy['fit']): string[] {
  if (outliers.length === 0) return [];
  const shown = outliers.slice(0, 6).map((one) => `${fixed(one.minutes, 1)} min`);
  const more = outliers.length > shown.length ? ` and ${outliers.length - shown.length} more` : '';
  return [
    `Far from the rest: ${listed(shown)}${more}. ${outliers.length === 1 ? 'It is' : 'They are'} kept; was that a mistake, or a hard piece?`,
  ];
}

function leftSentence(left: PlaceStudy['left']): string[] {
  if (left.length === 0) return [];
  const shown = left.slice(0, 6).map((one) => `${fixed(one.minutes, 1)} min`);
  const more = left.length > shown.length ? ` and ${left.length - shown.length} more` : '';
  return [`Left out by hand, in no figure, kept in the list: ${listed(shown)}${more}.`];
}

/**
 * The file with nobody's name in it: times are for planning, not for telling people apart. Who is compared is
 * "person A" and "person B", in the order they come up.
 */
function withoutNames(scenario: Scenario, { effects }: PlaceStudy['effects'], doubts: Doubt[]): Scenario {
  const ids = [
    ...effects.flatMap(({ kind, id, against }) => (kind === 'person' ? [against, id] : [])),
    ...doubts.flatMap((doubt) => (doubt.kind === 'people differ' ? doubt.people : [])),
  ];
  const letters = new Map([...new Set(ids)].map((id, i) => [id, `person ${LETTERS[i] ?? i + 1}`]));
  const people = { ...scenario.people };
  for (const [id, name] of letters) people[id] = { ...(people[id] ?? { covers: [] }), name };
  return { ...scenario, people };
}

const LETTERS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ';

/** Ids in a sentence of an effect by the names people see. */
function named(
  scenario: Scenario,
  sentence: string,
  { kind, id, against }: { kind: 'product' | 'person'; id: string; against: string },
): string {
  const { products, people } = resolve(scenario);
  const name = (one: string): string => nameOf(kind === 'product' ? products : people, one);
  const start = sentence.startsWith(id) ? `${name(id)}${sentence.slice(id.length)}` : sentence;
  return capitalized(
    start
      .replace(` as ${against} `, ` as ${name(against)} `)
      .replace(`against ${against}:`, `against ${name(against)}:`),
  );
}

/** "sand: 1.21 times as long as the file has it (1.10 to 1.33), slower." */
export function driftSentence(scenario: Scenario, drift: Drift, what = 'lately'): string {
  const place = capitalized(placeName(scenario, drift));
  if (!Number.isFinite(drift.ratio))
    return `${place}: too few times to set against the file’s ${fixed(drift.model, 1)} min.`;
  const size = `${fixed(drift.ratio, 2)} times the file’s ${fixed(drift.model, 1)} min (${fixed(drift.low, 2)} to ${fixed(drift.high, 2)})`;
  if (drift.verdict === 'as before') return `${place}: ${what} as the file has it; ${size}.`;
  if (drift.verdict === 'cannot tell')
    return `${place}: whether ${what === 'lately' ? 'it lately differs' : `${what} differ`} from the file cannot be told; ${size}.`;
  return `${place}: ${what} ${drift.verdict === 'slower' ? 'longer' : 'shorter'} than the file has it; ${size}.`;
}

/** Shift-to-shift luck and what is not known of the times, apart. */
export function splitSentences({ split, target, chance }: TimesForecast): string[] {
  if (split === null) return ['Too little was run to tell luck from what is not known of the times.'];
  const { shifts, meanRange } = split;
  const holds = Math.round(shifts.hold * 10);
  return [
    `With these times the shift makes ${fixed(split.mean, 1)} good units on average; the times leave that open from ${fixed(meanRange.low, 1)} to ${fixed(meanRange.high, 1)} (at ${percent(meanRange.confidence)}).`,
    `From luck alone ${holds} shifts in ten end between ${fixed(shifts.luckOnly.low, 0)} and ${fixed(shifts.luckOnly.high, 0)}; with what is not known of the times, between ${fixed(shifts.widened.low, 0)} and ${fixed(shifts.widened.high, 0)}.`,
    split.share < 0.005
      ? 'More observations would hardly narrow that: it is the luck of the day.'
      : `Of the spread (its variance) ${percent(split.share)} is what more observations could take away; the rest is the luck of the day.`,
    ...(target === null || chance === null
      ? []
      : [
          `The chance of ${target} is ${percent(chance.chance)}; by how the times may lie, ${percent(chance.low, 'down')} to ${percent(chance.high, 'up')}.`,
        ]),
  ];
}
