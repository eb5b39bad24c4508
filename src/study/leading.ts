/**
 * Which of several choices to go for: the one that makes the most, unless a cheaper one cannot be told from
 * it, or comes within what matters of it, on the same luck.
 */
import type { Range } from './verdict.ts';

export interface Choice {
  id: string;
  /** Money in the first year: the price, and wages above those of today. Null where nobody says. */
  outlay: number | null;
}

/** Good units a shift, with the range. */
type Gain = Range & { estimate: number };

/**
 * The id of the choice to go for; of those that are no worse by what matters the cheapest, and of equally
 * cheap ones the one that makes more. A choice whose outlay is not known is not taken for a cheap one.
 *
 * @param choices one or more. @param gain of a choice over things as they are. @param over what one choice
 *   makes above another, on the same luck; all such hold together.
 */
export function leadingOf(
  choices: readonly Choice[],
  gain: (id: string) => Gain,
  over: (id: string, other: string) => Gain,
  matters: number,
): string {
  const most = choices.reduce((best, one) => (gain(one.id).estimate > gain(best.id).estimate ? one : best));
  const dearness = ({ outlay }: Choice): number => outlay ?? Infinity;
  const alike = choices.filter((one) => {
    if (dearness(one) >= dearness(most)) return false;
    const more = over(most.id, one.id);
    return more.low <= 0 || more.high < matters;
  });
  return alike.reduce(
    (best, one) =>
      dearness(one) < dearness(best) ||
      (dearness(one) === dearness(best) && gain(one.id).estimate > gain(best.id).estimate)
        ? one
        : best,
    most,
  ).id;
}
