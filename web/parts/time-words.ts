/** Times of a scenario file as people give them, and back. */
import { compileTime, isFixed } from '../../src/duration/compile.ts';
import type { Likeness } from '../../src/duration/curve.ts';
import { quickUsualSlow, type QuickUsualSlow } from '../../src/duration/curves/quick-usual-slow.ts';
import { curveNamed, curveOf, timeSchema, type Time, type TimeKind } from '../../src/duration/time.ts';

export const kindOf = (time: Time): TimeKind => curveOf(time).kind;

const tidy = (value: number): number => Math.round(value * 10) / 10;

/** How quick, usual and slow a time is: as given, or its 10th, 50th and 90th percentile to a tenth. */
export function asPeopleSay(time: Time): QuickUsualSlow {
  if (quickUsualSlow.is(time)) return time;
  const { quick, usual, slow } = likenessOf(time);
  return { quick, usual, slow };
}

/** What another kind of curve is told of this time; of one that is wrong, what its numbers let guess. */
function likenessOf(time: Time): Likeness {
  if (faultOf(time) !== '') return guessOf(time);
  const curve = compileTime(time);
  return {
    typical: tidy(curveOf(time).typical(time)),
    mean: tidy(curve.mean),
    cv: curve.mean > 0 ? curve.standardDeviation / curve.mean : 0,
    quick: tidy(curve.percentile(10)),
    usual: tidy(curve.percentile(50)),
    slow: tidy(curve.percentile(90)),
  };
}

/** The least, the middle and the most of the minutes that were typed. */
function guessOf(time: Time): Likeness {
  const typed: number[] = [];
  curveOf(time).mapMinutes(time, (minutes) => {
    if (Number.isFinite(minutes)) typed.push(Math.max(0, minutes));
    return minutes;
  });
  const sorted = typed.length === 0 ? [10] : typed.sort((a, b) => a - b);
  const at = (share: number): number => tidy(sorted[Math.floor(share * (sorted.length - 1))]!);
  const usual = at(0.5);
  return { typical: usual, mean: usual, cv: 0.2, quick: at(0), usual, slow: at(1) };
}

/**
 * A time of another kind that is about like this one: where a page changes the kind and nothing typed is to
 * be lost.
 */
export const asKind = (time: Time, kind: TimeKind): Time =>
  kindOf(time) === kind ? time : curveNamed(kind).about(likenessOf(time));

/** "usually 14, one in ten under 9.7, one in ten over 20 min"; of one that is wrong, just its numbers. */
export function timeInWords(time: Time): string {
  const curve = curveOf(time);
  if (faultOf(time) !== '') return `${curve.words.short(time)} min`;
  if (isFixed(time)) return `always ${curve.typical(time)} min`;
  const { quick, usual, slow } = asPeopleSay(time);
  return `usually ${usual}, one in ten under ${quick}, one in ten over ${slow} min`;
}

/** Why these numbers make no time together; empty where they do. */
export function faultOf(time: Time): string {
  const curve = curveOf(time);
  if (!timeSchema.safeParse(time).success) return `This makes no time yet: ${curve.words.short(time)}.`;
  const [first] = curve.faults(time);
  if (first === undefined) return '';
  const field = curve.fields.find((one) => one.kind === 'number' && one.key === first.place[0]);
  return `${field?.label ?? 'This time'}: found ${first.found}; allowed: ${first.allowed}; ${first.remedy}.`;
}
