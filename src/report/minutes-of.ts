/**
 * Where the minutes of people and gear went, as strips for a picture: waiting for hands stands on its own.
 */
import { gearAt, personPresence, workingAt } from '../engine/states.ts';
import type { ResolvedShift } from '../scenario/resolve.ts';
import type { ShiftSummary } from '../study/shift-summary.ts';
import type { Meaning, MinutesPart, MinutesStrip } from '../charts/index.ts';
import { gearStateWords, personStateWords } from '../words/states.ts';
import { plural } from '../words/words.ts';

/**
 * What working at each step means: the step that takes gear is glue-up, the one that ends its hold is
 * unclamping.
 */
export function meaningsOf({ steps }: Pick<ResolvedShift, 'steps'>): Meaning[] {
  const frees = new Set(steps.flatMap((step) => step.takes.map(({ until }) => until)));
  return steps.map((step): Meaning => {
    if (step.kind === 'wait') return 'cure';
    if (step.takes.length > 0) return 'glue-up';
    return frees.has(step.id) ? 'unclamping' : 'other';
  });
}

/** Parts under this many minutes a shift are added up as one. */
const WORTH_NAMING = 0.5;

/**
 * A strip a person: work first, then the reasons for being without it, then breaks; minutes of their own
 * hours.
 */
export function peopleStrips(shift: ShiftSummary, resolved: ResolvedShift): MinutesStrip[] {
  const steps = meaningsOf(resolved);
  return shift.people.map((person, index): MinutesStrip => {
    const all = person.minutes
      .map((minutes, state) => ({
        minutes: minutes + person.overtime[state]!,
        state,
        ...personStateWords(state, resolved),
      }))
      .filter(({ state }) => personPresence(state) !== 'gone');
    const meaning = (state: number, kind: string): Meaning => {
      if (personPresence(state) === 'off') return 'off';
      return kind === 'work' ? (steps[state - workingAt(resolved.gear.length, 0)] ?? 'other') : 'free';
    };
    const parts = all.map(({ minutes, state, kind, words }) => ({
      meaning: meaning(state, kind),
      word: words,
      minutes,
    }));
    return {
      name: resolved.people[index]!.name,
      parts: inOrder(parts, ['glue-up', 'unclamping', 'other', 'free', 'off']),
    };
  });
}

/** A strip for each kind of gear the file lists (not benches): all items of a kind together. */
export function gearStrips(shift: ShiftSummary, resolved: ResolvedShift): MinutesStrip[] {
  const steps = meaningsOf(resolved);
  return shift.gear.flatMap(({ minutes, count }, index): MinutesStrip[] => {
    const gear = resolved.gear[index]!;
    if (gear.kind === 'bench' || count === 0) return [];
    const parts = minutes.flatMap((value, state): MinutesPart[] => {
      if (value === 0) return [];
      const { kind, words } = gearStateWords(state, index, resolved);
      const step = steps.findIndex((_, i) => gearAt(i) === state);
      const meaning: Record<typeof kind, Meaning> = {
        work: steps[step] ?? 'other',
        idle: 'waiting',
        free: 'free',
        away: 'off',
      };
      return [{ meaning: meaning[kind], word: words, minutes: value }];
    });
    return [
      {
        name: `${plural(gear.name)} (${count} of them)`,
        parts: inOrder(parts, ['glue-up', 'cure', 'waiting', 'unclamping', 'other', 'free', 'off']),
      },
    ];
  });
}

/** By meaning, the longest first; what is too little to name goes in with the longest of its meaning. */
function inOrder(parts: MinutesPart[], order: Meaning[]): MinutesPart[] {
  return order.flatMap((meaning) => {
    const own = parts
      .filter((part) => part.meaning === meaning && part.minutes > 0)
      .sort((a, b) => b.minutes - a.minutes);
    const small = own
      .slice(1)
      .filter(({ minutes }) => minutes < WORTH_NAMING)
      .reduce((sum, { minutes }) => sum + minutes, 0);
    return own
      .filter(({ minutes }, i) => i === 0 || minutes >= WORTH_NAMING)
      .map((part, i) => (i === 0 ? { ...part, minutes: part.minutes + small } : part));
  });
}
