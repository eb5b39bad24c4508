/**
 * What if this person calls out, for everybody: the plan without them, and a simple new plan of posts alone.
 */
import type { Runner } from '../record/job.ts';
import { chanceInterval } from '../study/intervals/chance-interval.ts';
import { differenceInterval } from '../study/intervals/difference-interval.ts';
import type { Interval } from '../study/intervals/interval.ts';
import { frequenciesOf } from '../study/intervals/frequencies.ts';
import { spreadOf, type Spread } from '../study/spread.ts';
import { draftOf, withDraft, type Draft } from './draft.ts';
import { movesFrom, simpleMoves } from './neighbours.ts';
import { openDay, type Day } from './question.ts';
import { findDrafts, SEARCH } from './search.ts';
import { filled } from './starts.ts';
import { sheetOf, type CrewSheet } from './sheet.ts';
import { breaksLimit, LUCK, openTrials, type Figures } from './trials.ts';
import { surelyFewer } from './contest.ts';
import { promisable } from './worth.ts';

export interface Absence {
  id: string;
  name: string;
  /**
   * What is best then: the plan as it is without them, other posts, or nothing that keeps the rules and
   * limits.
   */
  best: 'same plan' | 'other posts' | 'nothing';
  /** Steps that nobody left can do. */
  uncovered: string[];
  /** Good units with the best of them; null where there is nothing. */
  spread: Spread | null;
  /** Chance of the target; null without one. */
  chance: Interval | null;
  /**
   * Good units less the plan's with everybody in, on the same luck; the ranges of all absences hold together.
   */
  loses: Interval | null;
  /** The sheet of the other posts where they are best. */
  sheet: CrewSheet | null;
}

/**
 * The search for other posts, for each person: short, as the sheet is only needed once somebody has called
 * out.
 */
const SEARCHED = { ...SEARCH, shifts: 2400, quick: 6, look: 24, verify: 60, closer: 6, finalists: 4 };

export async function absencesOf(
  day: Day,
  draft: Draft,
  runner: Runner,
  count: number,
  signal?: AbortSignal,
  onShifts?: (spent: number) => void,
): Promise<Absence[]> {
  const whole = openTrials(day, runner, signal);
  const { good } = await whole.see(draft, count, LUCK.aside);
  const absences: Absence[] = [];
  let spent = 0;
  for (const id of day.present) {
    const { absence, shifts } = await absenceOf(day, draft, id, good, runner, count, signal, (one) =>
      onShifts?.(spent + one),
    );
    absences.push(absence);
    spent += shifts;
  }
  return absences;
}

async function absenceOf(
  day: Day,
  draft: Draft,
  id: string,
  whole: number[],
  runner: Runner,
  count: number,
  signal: AbortSignal | undefined,
  onShifts: (spent: number) => void,
): Promise<{ absence: Absence; shifts: number }> {
  const without = dayWithout(day, id);
  const name = day.shift.people.find((person) => person.id === id)!.name;
  if (without === null) return { absence: nothing(id, name, []), shifts: 0 };
  const trials = openTrials(without, runner, signal, onShifts);
  const same = sameWithout(draft, id);
  const starts = [filled(without, same), filled(without, draftOf(without))];
  const quick = await findDrafts(trials, SEARCHED, simpleMoves, starts);
  // Where posts alone break a limit, a change in the day may keep it.
  const found = quick.finalists.length > 0 ? quick : await findDrafts(trials, SEARCHED, movesFrom, starts);
  // Fewer people work closer to their limits: the best are tried without overtime as well.
  const drafts = [
    same,
    ...found.finalists,
    ...found.finalists.slice(0, 2).map((one): Draft => ({ ...one, overtime: null })),
  ];
  const figures = await Promise.all(drafts.map((one) => trials.see(one, count, LUCK.aside)));
  const sound = drafts.map((_, at) => at).filter((at) => !breaksLimit(figures[at]!));
  if (sound.length === 0) return { absence: nothing(id, name, namesOf(without)), shifts: trials.spent };
  const best = bestOf(without, sound, figures, whole);
  const { good } = figures[best]!;
  return {
    shifts: trials.spent,
    absence: {
      id,
      name,
      best: best === 0 ? 'same plan' : 'other posts',
      uncovered: namesOf(without),
      spread: spreadOf(frequenciesOf(good), 0.95),
      chance:
        day.target === null
          ? null
          : chanceInterval(good.filter((one) => one >= day.target!).length, good.length),
      loses: differenceInterval(whole, good, 0.95, day.present.length),
      sheet: best === 0 ? null : sheetOf(without, withDraft(without, drafts[best]!)),
    },
  };
}

/**
 * The best of what is left, by what the plan itself was chosen by. One that surely makes more than the plan
 * with everybody in would be a plan for everybody, who can stand aside: it stands back behind all others.
 */
function bestOf(day: Day, sound: number[], figures: Figures[], whole: number[]): number {
  const { by, margin, wanted } = day.objective;
  const level = day.target ?? Math.max(...sound.map((at) => promisable(figures[at]!, day.confidence)));
  const valued = sound.map((at) => {
    const { good, cost } = figures[at]!;
    const mean = (of: (at: number) => number): number =>
      good.reduce((sum, _, shift) => sum + of(shift), 0) / good.length;
    const chance = mean((shift) => (good[shift]! >= level ? 1 : 0));
    const worth = mean((shift) => margin * Math.min(good[shift]!, wanted) - cost[shift]!);
    const more = surelyFewer({ good: whole }, { good });
    return { at, more, able: chance >= day.confidence, chance, worth, good: mean((shift) => good[shift]!) };
  });
  return valued.reduce((a, b) => {
    const order = [
      Number(a.more) - Number(b.more),
      Number(b.able) - Number(a.able),
      ...(a.able && b.able && by !== 'output' ? [b.worth - a.worth] : []),
      b.chance - a.chance,
      b.good - a.good,
    ].find((one) => one !== 0);
    return (order ?? 0) > 0 ? b : a;
  }).at;
}

function sameWithout(draft: Draft, id: string): Draft {
  const { [id]: _gone, ...people } = draft.people;
  const who = draft.overtime?.who.filter((one) => one !== id) ?? [];
  return {
    ...draft,
    people,
    overtime: draft.overtime === null || who.length === 0 ? null : { ...draft.overtime, who },
  };
}

const namesOf = (day: Day): string[] =>
  day.uncovered.map((id) => day.shift.steps.find((step) => step.id === id)!.name);

const nothing = (id: string, name: string, uncovered: string[]): Absence => ({
  id,
  name,
  best: 'nothing',
  uncovered,
  spread: null,
  chance: null,
  loses: null,
  sheet: null,
});

/** The same day with one person fewer; null where nobody would be left. */
function dayWithout(day: Day, id: string): Day | null {
  if (day.present.length === 1) return null;
  const made = openDay({
    scenario: day.scenario,
    attendance: { [id]: { kind: 'out' } },
    target: day.target,
    confidence: day.confidence,
    cheapest: day.objective.by === 'cost',
    vary: day.vary,
    overtime: day.overtime === null ? null : { cap: day.overtime.cap, who: day.overtime.who },
  });
  // The day's own scenario no longer says what overtime lasts until.
  return made.overtime === null
    ? made
    : { ...made, overtime: { ...made.overtime, until: day.overtime!.until } };
}
