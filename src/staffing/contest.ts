/**
 * The race of the drafts found: those whose ceiling misses the target are struck out, the rest raced on luck
 * of their own. A draft that takes somebody over an exposure limit in more than one shift in 100 is not
 * chosen, whatever else it does.
 */
import { checkScenario } from '../scenario/check.ts';
import { resolve } from '../scenario/resolve.ts';
import { fluidCeiling } from '../study/ceilings/fluid-ceiling.ts';
import { conduct } from '../study/selection/procedure.ts';
import { race, type RaceResult } from '../study/selection/race.ts';
import { departures, draftOf, withDraft, type Draft } from './draft.ts';
import type { Found } from './search.ts';
import { filled } from './starts.ts';
import { breaksLimit, LUCK, type Trials } from './trials.ts';
import { CHANGE } from './worth.ts';

export interface RaceChoice {
  /** Probability of correct selection. */
  guarantee: number;
  /** Indifference zone of the chance. */
  zone: number;
  /** Difference in cost worth finding; null: one per cent of the cost of a shift. */
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
}

/**
 * Shifts by which it is settled whether a draft keeps the exposure limits: the chosen one is run so often in
 * any case.
 */
const LIMIT_CHECK = 1000;
/** Levels asked about above and below the one that the search aimed at. */
const ABOVE = 2;
const BELOW = 10;

export async function contest(trials: Trials, found: Found, choice: RaceChoice): Promise<Contest> {
  const { day } = trials;
  const matters =
    choice.matters ??
    Math.max(0.01, Number((found.cost / 100).toPrecision(2)), trials.economy === 'cost' ? 0 : 5);
  const ceilings = new Map(
    found.finalists.map((draft) => [draft, fluidCeiling(resolve(withDraft(day, draft))).good]),
  );
  const under = (draft: Draft, level: number): boolean =>
    ceilings.get(draft)! < day.confidence * level - 1e-6;
  const levels = levelsOf(day.target, found, Math.max(0, ...ceilings.values()) / day.confidence);
  // A draft under the target may still promise the most of what is less: it is struck out only where another
  // can make the target.
  const reached = day.target !== null && found.aim >= day.target && levels[0] === day.target;
  const finalists = found.finalists.filter((draft) => checkScenario(withDraft(day, draft)).kind === 'fine');
  let drafts = reached ? finalists.filter((draft) => !under(draft, levels[0]!)) : finalists;
  const byCeiling = day.target === null ? 0 : finalists.filter((draft) => under(draft, day.target!)).length;
  const file = filled(day, draftOf(day));
  const change = CHANGE * found.cost;
  let byLimit = 0;
  for (;;) {
    const result = await conduct(
      race({
        candidates: drafts.length,
        levels,
        asked: day.confidence,
        matters,
        guarantee: choice.guarantee,
        zone: choice.zone,
        most: choice.most,
      }),
      async ({ candidate, from, count }) => {
        const { good, cost } = await trials.see(drafts[candidate]!, from + count, LUCK.race);
        const changes = change * departures(file, drafts[candidate]!);
        return {
          output: good.slice(from, from + count),
          cost: cost.slice(from, from + count).map((one) => one + changes),
        };
      },
    );
    if (result.chosen === null) return { drafts, result, matters, change, levels, byCeiling, byLimit };
    await trials.see(drafts[result.chosen]!, LIMIT_CHECK, LUCK.race);
    const over = new Set<Draft>();
    for (const draft of drafts) {
      const figures = await trials.see(draft, 0, LUCK.race);
      if (figures.good.length >= LIMIT_CHECK && breaksLimit(figures)) over.add(draft);
    }
    if (!over.has(drafts[result.chosen]!))
      return { drafts, result, matters, change, levels, byCeiling, byLimit };
    byLimit += over.size;
    drafts = drafts.filter((draft) => !over.has(draft));
  }
}

/**
 * The target and what to fall back on; without a target, from the most that was seen down. Levels that no
 * ceiling reaches at the chance asked for are left out (Markov's inequality: who makes L with chance p makes
 * p times L on average).
 */
function levelsOf(target: number | null, found: Found, most: number): number[] {
  const top = Math.min(target ?? found.most, Math.floor(most + 1e-6));
  const low = Math.max(1, Math.min(top, found.aim) - BELOW);
  const first = target !== null && top === target && target > 0 ? [target] : [];
  const from = Math.min(top - first.length, found.aim + ABOVE);
  return [...first, ...Array.from({ length: Math.max(0, from - low + 1) }, (_, at) => from - at)];
}
