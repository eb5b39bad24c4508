/**
 * Does a candidate's chance reach what is asked? Wald's sequential probability ratio test of `asked - zone`
 * against `asked + zone` (Annals of Mathematical Statistics 16, 1945), with both boundaries at log(1 /
 * error).
 *
 * Guarantee: a candidate whose chance is at least `asked + zone` is turned down, and one whose chance is at
 * most `asked - zone` is taken, each with probability at most `error`; exactly so for yes-or-no observations,
 * with no normal approximation, since a likelihood ratio reaches 1 / error with probability at most `error`
 * (Ville's inequality) and the ratio is monotone in the chance. In between, either answer is right. As a
 * screen of several candidates before their comparison this is the feasibility check of Andradottir and Kim
 * (Naval Research Logistics 57, 2010; from memory) with the test that suits yes-or-no outcomes.
 */
export interface ChanceTest {
  boundary: number;
  /** What a success and a failure add to the log likelihood ratio. */
  success: number;
  failure: number;
  ratio: number;
  tested: number;
  successes: number;
  answer: 'open' | 'reaches' | 'misses';
}

/**
 * @param asked chance asked for, over 0 and under 1. @param zone half-width of the indifference zone; it is
 *   narrowed where `asked` lies nearer than twice that to 0 or 1. @param error over 0, under one half.
 */
export function createChanceTest(asked: number, zone: number, error: number): ChanceTest {
  if (!(asked > 0 && asked < 1))
    throw new RangeError(`the chance asked for must be over 0 and under 1, not ${asked}`);
  if (!(zone > 0)) throw new RangeError(`the indifference zone must be over 0, not ${zone}`);
  if (!(error > 0 && error < 0.5))
    throw new RangeError(`the error must be over 0 and under one half, not ${error}`);
  const half = narrowed(asked, zone);
  const [low, high] = [asked - half, asked + half];
  return {
    boundary: -Math.log(error),
    success: Math.log(high / low),
    failure: Math.log((1 - high) / (1 - low)),
    ratio: 0,
    tested: 0,
    successes: 0,
    answer: 'open',
  };
}

/** The zone that is really used. */
export const narrowed = (asked: number, zone: number): number => Math.min(zone, asked / 2, (1 - asked) / 2);

/** Takes in one observation; nothing once there is an answer. */
export function tellChance(test: ChanceTest, success: boolean): void {
  if (test.answer !== 'open') return;
  test.tested += 1;
  test.successes += success ? 1 : 0;
  test.ratio += success ? test.success : test.failure;
  if (test.ratio >= test.boundary) test.answer = 'reaches';
  else if (test.ratio <= -test.boundary) test.answer = 'misses';
}

/** The answer to give where no more can be seen: the likelier one, without the guarantee. */
export const leaning = (test: ChanceTest): 'reaches' | 'misses' => (test.ratio >= 0 ? 'reaches' : 'misses');
