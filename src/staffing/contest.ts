/**
 * The race of the drafts found: those whose ceiling misses the target are struck out, the rest raced on luck
 * of their own, the file's own posts always among them. A draft that takes somebody over an exposure limit in
 * more than one shift in 100 is not chosen, whatever else it does; nor, unless the cheapest is asked for, one
 * that surely makes fewer good units than the file's posts.
 */
import { checkScenario } from '../scenario/check.ts';
import { resolve } from '../scenario/resolve.ts';
import { fluidCeiling } from '../study/ceilings/fluid-ceiling.ts';
import { differenceInterval } from '../study/intervals/difference-interval.ts';
import { conduct } from '../study/selection/procedure.ts';
import { race, type RaceResult } from '../study/selection/race.ts';
import { departures, keyOf, withDraft, type Draft } from './draft.ts';
import type { DayObjective } from './question.ts';
import type { Found } from './search.ts';
import { asFiled } from './starts.ts';
import { breaksLimit, LUCK, type Figures, type Trials } from './trials.ts';
import { CHANGE } from './worth.ts';

export interface RaceChoice {
  /** Probability of correct selection. */
  guarantee: number;
  /** Indifference zone of the chance. */
  zone: number;
  /** Difference in worth or cost worth finding; null: one per cent of the cost of a shift. */
  matters: number | null;
  /** Most shifts of one draft. */
  most: number;
}

export const RACE_CHOICE: RaceChoice = { guarantee: 0.95, zone: 0.05, matters: null, most: 5000 };

export interface Contest {
  /** The drafts raced, in the order of the standings. */
  drafts: Draft[];
  result: RaceResult;
  /** In money, or in overtime minutes where the file has no pay. */
  matters: number;
  /**
   * What each departure from the file's posts counts as, besides the cost: of plans as good as equal the
   * simplest is taken.
   */
  change: number;
  /** Levels asked about, descending. */
  levels: number[];
  /** Struck out before the race: their ceiling is under the target times the chance asked for. */
  byCeiling: number;
  /** Struck out in the race: somebody went over an exposure limit. */
  byLimit: number;
  /** Struck out in the race: surely makes fewer good units than the file's posts. */
  byFewer: number;
}

/**
 * Shifts by which it is settled whether a draft keeps the exposure limits: the chosen one is run so often in
 * any case.
 */
const LIMIT_CHECK = 1000;
/** Levels asked about above and below the one that the search aimed at. */
const ABOVE = 2;
const BELOW = 10;

/** @param barred keys of drafts that are not to be offered. */
export async function contest(
  trials: Trials,
  found: Found,
  choice: RaceChoice,
  barred: ReadonlySet<string> = new Set(),
): Promise<Contest> {
  const { day } = trials;
  const matters =
    choice.matters ??
    Math.max(0.01, Number((found.cost / 100).toPrecision(2)), trials.economy === 'cost' ? 0 : 5);
  const file = asFiled(day);
  const asFile = found.finalists.find((draft) => keyOf(draft) === keyOf(file)) ?? file;
  const all = found.finalists.includes(asFile) ? found.finalists : [...found.finalists, asFile];
  const ceilings = new Map(all.map((draft) => [draft, fluidCeiling(resolve(withDraft(day, draft))).good]));
  const under = (draft: Draft, level: number): boolean =>
    ceilings.get(draft)! < day.confidence * level - 1e-6;
  const levels = levelsOf(trials, found, Math.max(0, ...ceilings.values()) / day.confidence);
  // A draft under the target may still promise the most of what is less: it is struck out only where another
  // can make the target.
  const reached = day.target !== null && found.aim >= day.target && levels[0] === day.target;
  const finalists = all.filter((draft) => checkScenario(withDraft(day, draft)).kind === 'fine');
  const byCeiling = day.target === null ? 0 : finalists.filter((draft) => under(draft, day.target!)).length;
  const change = CHANGE * found.cost;
  const account = { matters, change, levels, byCeiling };
  let drafts = finalists.filter(
    (draft) => !barred.has(keyOf(draft)) && (draft === asFile || !reached || !under(draft, levels[0]!)),
  );
  const seen = (draft: Draft): Promise<Figures> => trials.see(draft, LIMIT_CHECK, LUCK.race);
  if (breaksLimit(await seen(asFile))) drafts = drafts.filter((draft) => draft !== asFile);
  let [byLimit, byFewer] = [0, 0];
  for (;;) {
    const changes = drafts.map((draft) => departures(file, draft));
    const result = await conduct(
      race({
        candidates: drafts.length,
        levels,
        by: day.objective.by,
        changes,
        asked: day.confidence,
        matters,
        guarantee: choice.guarantee,
        zone: choice.zone,
        most: choice.most,
      }),
      async ({ candidate, from, count }) => {
        const figures = await trials.see(drafts[candidate]!, from + count, LUCK.race);
        return figuresOf(figures, from, count, change * changes[candidate]!, day.objective);
      },
    );
    if (result.chosen === null) return { ...account, drafts, result, byLimit, byFewer };
    const chosen = drafts[result.chosen]!;
    const own = await seen(chosen);
    const over = new Set<Draft>();
    for (const draft of drafts) {
      const figures = await trials.see(draft, 0, LUCK.race);
      if (figures.good.length >= LIMIT_CHECK && breaksLimit(figures)) over.add(draft);
    }
    byLimit += over.size;
    const fewer = !over.has(chosen) && day.objective.by !== 'cost' && surelyFewer(own, await seen(asFile));
    if (fewer) byFewer += 1;
    else if (!over.has(chosen)) return { ...account, drafts, result, byLimit, byFewer };
    drafts = drafts.filter((draft) => !over.has(draft) && !(fewer && draft === chosen));
  }
}

function figuresOf(
  { good, cost }: Figures,
  from: number,
  count: number,
  changes: number,
  { margin, wanted }: DayObjective,
): { output: number[]; cost: number[]; worth: number[] } {
  const output = good.slice(from, from + count);
  const costs = cost.slice(from, from + count).map((one) => one + changes);
  return {
    output,
    cost: costs,
    worth: output.map((units, at) => margin * Math.min(units, wanted) - costs[at]!),
  };
}

/** Whether a draft's good units are surely fewer than another's, over the shifts seen of both. */
export function surelyFewer(one: Pick<Figures, 'good'>, other: Pick<Figures, 'good'>): boolean {
  const both = Math.min(one.good.length, other.good.length);
  return differenceInterval(other.good.slice(0, both), one.good.slice(0, both)).high < 0;
}

/**
 * The target and what to fall back on; without a target, or where more than is due counts and has no price,
 * from the most that was seen down. Levels that no ceiling reaches at the chance asked for are left out
 * (Markov's inequality: who makes L with chance p makes p times L on average).
 */
function levelsOf({ day }: Trials, found: Found, most: number): number[] {
  const open = day.objective.by === 'output' && day.objective.wanted === Infinity;
  const target = open ? null : day.target;
  const top = Math.min(target ?? found.most, Math.floor(most + 1e-6));
  const low = Math.max(1, Math.min(top, found.aim) - BELOW);
  const first = target !== null && top === target && target > 0 ? [target] : [];
  const from = Math.min(top - first.length, found.aim + ABOVE);
  return [...first, ...Array.from({ length: Math.max(0, from - low + 1) }, (_, at) => from - at)];
}
