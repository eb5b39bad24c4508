/**
 * The inputs of a shift that are not known exactly, each with what is known of it: every mean time, share of
 * rework or scrap, and attendance that the run really uses.
 */
import { isFixed } from '../duration/compile.ts';
import { curveOf, type Time } from '../duration/time.ts';
import { COUNTED_OVER, MEMORY_PERCENT, type Mind, type ShareKnown, type TimeKnown } from './known.ts';
import type { Person, Scenario, Step } from './schema.ts';

/** Which number of the resolved shift it is. */
export type InputPlace =
  | { kind: 'time'; step: string; product: string | null; repeat: boolean }
  | { kind: 'rework'; step: string; branch: number }
  | { kind: 'scrap'; step: string }
  | { kind: 'attendance'; person: string };

export type Knowledge =
  /** The mean right to this share either way, 95 times in 100. `assumed`: nobody said so. */
  | { kind: 'within'; share: number; assumed: boolean }
  /**
   * Timings: how many, their mean and standard deviation in minutes (null: the curve's), and what a range
   * made of them cannot know (null: nothing was found).
   */
  | { kind: 'times'; count: number; mean: number | null; spread: number | null; mind: Mind | null }
  /** A share counted over so many pieces or days. */
  | { kind: 'counted'; share: number; of: number; assumed: boolean };

export interface UncertainInput {
  /** The same for the same input of any variant of the cell. */
  id: string;
  place: InputPlace;
  known: Knowledge;
}

/** Those of the file's own shift, in the file's order; none where the file takes its times as known. */
export function inputsOf(scenario: Scenario): UncertainInput[] {
  const study = scenario.study ?? {};
  if (study.timesKnown === true) return [];
  const memory = (study.memory ?? MEMORY_PERCENT) / 100;
  const counted = study.counted ?? COUNTED_OVER;
  return [
    ...Object.entries(scenario.steps).flatMap(([id, step]) => [
      ...timesOf(scenario, id, step, memory),
      ...sharesOf(id, step, counted),
    ]),
    ...Object.entries(scenario.people).flatMap(([id, person]) => attendanceOf(id, person, counted)),
  ];
}

function timesOf(scenario: Scenario, id: string, step: Step, memory: number): UncertainInput[] {
  const products = Object.entries(scenario.products ?? { piece: {} }).filter(
    ([, product]) => !(product.skips ?? []).includes(id),
  );
  const input = (
    time: Time,
    known: TimeKnown | undefined,
    product: string | null,
    repeat: boolean,
  ): UncertainInput[] => {
    const said = knowledgeOf(time, known, memory);
    const tail = `${product === null ? '' : `:${product}`}${repeat ? ':again' : ''}`;
    return said === null
      ? []
      : [{ id: `time:${id}${tail}`, place: { kind: 'time', step: id, product, repeat }, known: said }];
  };
  return [
    ...(products.some(([, product]) => product.times?.[id] === undefined)
      ? input(step.time, step.known?.time, null, false)
      : []),
    ...products.flatMap(([name, product]) => {
      const time = product.times?.[id];
      return time === undefined ? [] : input(time, product.known?.[id], name, false);
    }),
    ...(step.repeatTime === undefined ? [] : input(step.repeatTime, step.known?.repeatTime, null, true)),
  ];
}

/** Null: exact. */
function knowledgeOf(time: Time, known: TimeKnown | undefined, memory: number): Knowledge | null {
  if (known === 'exact') return null;
  if (known !== undefined) {
    return 'within' in known
      ? { kind: 'within', share: known.within / 100, assumed: false }
      : {
          kind: 'times',
          count: known.times,
          mean: known.mean ?? null,
          spread: known.spread ?? null,
          mind: known.mind ?? null,
        };
  }
  if (isFixed(time)) return null;
  const timings = curveOf(time).timings(time);
  if (timings.length < 2) return { kind: 'within', share: memory, assumed: true };
  const mean = timings.reduce((sum, value) => sum + value, 0) / timings.length;
  const squares = timings.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  return {
    kind: 'times',
    count: timings.length,
    mean,
    spread: Math.sqrt(squares / (timings.length - 1)),
    mind: null,
  };
}

function sharesOf(id: string, step: Step, counted: number): UncertainInput[] {
  return [
    ...(step.rework ?? []).flatMap((back, branch) =>
      shareInput(
        `rework:${id}:${branch}`,
        { kind: 'rework', step: id, branch },
        back.percent,
        back.known,
        counted,
      ),
    ),
    ...shareInput(`scrap:${id}`, { kind: 'scrap', step: id }, step.scrap ?? 0, step.known?.scrap, counted),
  ];
}

const attendanceOf = (id: string, person: Person, counted: number): UncertainInput[] =>
  shareInput(
    `attendance:${id}`,
    { kind: 'attendance', person: id },
    person.attendance?.percent ?? 100,
    person.attendance?.known,
    counted,
  );

function shareInput(
  id: string,
  place: InputPlace,
  percent: number,
  known: ShareKnown | undefined,
  counted: number,
): UncertainInput[] {
  if (percent <= 0 || percent >= 100 || known === 'exact') return [];
  const of = known?.of ?? counted;
  return [{ id, place, known: { kind: 'counted', share: percent / 100, of, assumed: known === undefined } }];
}
