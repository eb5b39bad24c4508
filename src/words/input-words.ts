/**
 * What a range knows, in words: how much of it is luck, how much what is not known, what would narrow it, and
 * what it cannot know.
 */
import type { Interval } from '../study/intervals/interval.ts';
import { toReach, type More, type Narrowing } from '../study/inputs/narrowing.ts';
import type { Mind } from '../scenario/known.ts';
import type { StudiedInput } from '../study/inputs/input-study.ts';
import { capitalized, counted, decimalsFor, fixed, listed, roundUp } from './words.ts';

type Inputs = readonly StudiedInput[];

/** "the runs leave 0.2 open, your times and shares 1.2", "luck alone: ..." where everything is known. */
export function partsOfRange(range: Interval, inputs: Inputs): string {
  if (inputs.length === 0) return 'luck alone, as if every time and share were known exactly';
  const decimals = Math.max(1, decimalsFor({ estimate: 0, low: -range.half, high: range.half }));
  const open = (half: number): string => fixed(roundUp(half, decimals), decimals);
  return `the runs leave ${open(range.luck)} open, ${whatIsOpen(inputs)} ${open(range.inputs)}`;
}

/** "your times", "your times and shares": what kinds of input there are. */
function whatIsOpen(inputs: Inputs): string {
  const of = (kind: 'time' | 'attendance'): boolean => inputs.some(({ place }) => place.kind === kind);
  const shares = inputs.some(({ place }) => place.kind === 'rework' || place.kind === 'scrap');
  return `your ${listed([
    ...(of('time') ? ['times'] : []),
    ...(shares ? ['shares of rework'] : []),
    ...(of('attendance') ? ['attendance'] : []),
  ])}`;
}

/**
 * "Timing “fit” 20 times and “sand” 10 times would halve what your times leave open." Null where more runs
 * would do as much, or where it would hardly help.
 * @param before half-width of the range now, units a shift.
 */
export function narrowingSentence(
  narrowing: Narrowing | null,
  inputs: Inputs,
  before: number,
): string | null {
  const advice = narrowing?.advice;
  if (advice == null) return null;
  const { rounds, halves, half } = advice;
  const taking = capitalized(takingMore(rounds, inputs));
  if (halves) return `${taking} would halve what ${rounds.length === 1 ? 'that leaves' : 'they leave'} open.`;
  const decimals = Math.max(1, decimalsFor({ estimate: 0, low: -half, high: half }));
  const written = (value: number): string => fixed(roundUp(value, decimals), decimals);
  return written(half) === written(before)
    ? null
    : `${taking} would bring it to ${written(half)} either way.`;
}

/** "timing “fit” 20 more times and “sand” 20 times, and counting ... over 200 more pieces". */
function takingMore(rounds: readonly More[], inputs: Inputs): string {
  const told = rounds.map((more) => ({ ...more, of: inputs.find(({ id }) => id === more.input)! }));
  const again = (of: StudiedInput): string =>
    of.known.kind === 'times' || (of.known.kind === 'counted' && !of.known.assumed) ? 'more ' : '';
  const times = told
    .filter(({ of }) => of.place.kind === 'time')
    .map(({ of, more }) => `${of.name} ${fixed(more, 0)} ${again(of)}times`);
  const shares = told
    .filter(({ of }) => of.place.kind !== 'time')
    .map(({ of, more }) =>
      of.place.kind === 'attendance'
        ? `${of.name} on ${fixed(more, 0)} ${again(of)}days`
        : `${of.name} over ${again(of) === '' ? counted(more, 'piece') : `${fixed(more, 0)} more pieces`}`,
    );
  return [
    ...(times.length === 0 ? [] : [`timing ${listed(times)}`]),
    ...(shares.length === 0 ? [] : [`counting ${listed(shares)}`]),
  ].join(', and ');
}

/**
 * Where a gain cannot be told from what matters: which timings would tell it, and how narrow the range would
 * be then. Null where the runs themselves leave too much open, or everything is known.
 */
export function toTellSentence(
  gain: Interval,
  narrowing: Narrowing | null,
  inputs: Inputs,
  matters: number,
): string | null {
  if (narrowing === null) return null;
  const away = Math.abs(gain.estimate - matters);
  const enough = toReach(gain, narrowing, inputs, away);
  if (enough !== null)
    return `${capitalized(takingMore(enough.rounds, inputs))} would most likely tell: the range would be about ${narrowed(enough.half, gain.half)}.`;
  const advice = narrowing.advice;
  if (advice === null) return null;
  return `${capitalized(takingMore(advice.rounds, inputs))} would not be sure to tell, so close to what matters does it lie: the range would be about ${narrowed(advice.half, gain.half)}.`;
}

/** "0.3 either way instead of 0.4", with as many decimals as tell the two apart. */
function narrowed(half: number, before: number): string {
  const decimals = [1, 2].find((one) => fixed(half, one) !== fixed(before, one)) ?? 2;
  return `${fixed(half, decimals)} either way instead of ${fixed(before, decimals)}`;
}

/**
 * "No range here knows that “fit” and “sand” were timed from 06:05 to 09:17 only." Null where the lists of
 * times gave no reason to mind.
 */
export function mindSentence(inputs: Inputs): string | null {
  const told = inputs.flatMap(({ name, known }) =>
    known.kind === 'times' && known.mind !== null ? [{ name, mind: known.mind }] : [],
  );
  const namesOf = (counts: (mind: Mind) => boolean): string =>
    listed(told.filter(({ mind }) => counts(mind)).map(({ name }) => name));
  const parts = CLAUSES.flatMap(([counts, say]) => {
    const names = namesOf(counts);
    return names === '' ? [] : [say(names, told.map(({ mind }) => mind).filter(counts))];
  });
  return parts.length === 0 ? null : `Mind, as no range knows it: ${parts.join('; ')}.`;
}

/** What there may be to mind, and how it is said of the times it is so of. */
const CLAUSES: [(mind: Mind) => boolean, (names: string, minds: readonly Mind[]) => string][] = [
  [
    ({ between }) => between !== undefined,
    (names, minds) => {
      const ends = (which: 0 | 1): string[] => minds.map(({ between }) => between![which]).sort();
      return `the times of ${names} were all taken between ${ends(0)[0]!} and ${ends(1).at(-1)!}`;
    },
  ],
  [({ hourly }) => (hourly ?? 1) > 1, (names) => `work at ${names} slows as the day goes on`],
  [({ hourly }) => (hourly ?? 1) < 1, (names) => `work at ${names} quickens as the day goes on`],
  [({ people }) => people === 'differ', (names) => `people differ at ${names}`],
  [
    ({ people }) => people === 'not named',
    (names) => `several people work at ${names}, and whose times they are was not noted`,
  ],
  [({ days }) => days !== undefined, (names) => `days differ at ${names}`],
];
