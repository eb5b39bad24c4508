/**
 * Who stands otherwise than in the file, and what each of these moves does: the plan with it left out, on the
 * same luck.
 */
import { nameOf, resolve } from '../scenario/resolve.ts';
import { differenceInterval } from '../study/intervals/difference-interval.ts';
import type { Interval } from '../study/intervals/interval.ts';
import { withDraft, withPerson, type Draft } from './draft.ts';
import { isSound } from './neighbours.ts';
import type { Day } from './question.ts';
import { brokenRules } from './rules.ts';
import { sheetOf, type SheetPerson } from './sheet.ts';
import { asFiled } from './starts.ts';
import { LUCK, type Trials } from './trials.ts';
import { wholeTooLong } from './whole-fits.ts';

/** What a move leaves out is: posts, order or breaks of a person; who stays and how long; a last start. */
export type Moved =
  | { kind: 'person'; name: string; before: SheetPerson; after: SheetPerson }
  | { kind: 'overtime'; before: Draft['overtime']; after: Draft['overtime']; names: string[] }
  | { kind: 'last start'; step: string; before: number | null; after: number };

export interface CrewMove {
  moved: Moved;
  /** Without it steps would stand empty: it is not tried. Else what the plan gains by it, a shift. */
  effect:
    | { kind: 'needed'; steps: string[] }
    | {
        kind: 'tried';
        good: Interval;
        /** Null where the file has no pay. */
        cost: Interval | null;
        /** Share of shifts that make the level, without it and with it; null where no level is asked for. */
        chances: [left: number, kept: number] | null;
      };
}

/** @param count shifts of each move left out. @param level good units that are due or promised. */
export async function movesOf(
  trials: Trials,
  draft: Draft,
  level: number | null,
  count: number,
): Promise<CrewMove[]> {
  const { day } = trials;
  const all = leftOut(day, draft);
  const sound = all.filter((one) => isSound(day, one.draft));
  const [whole, ...others] = await Promise.all(
    [draft, ...sound.map((one) => one.draft)].map((one) => trials.see(one, count, LUCK.aside)),
  );
  const share = (good: number[]): number =>
    good.slice(0, count).filter((one) => one >= level!).length / count;
  return all.map(({ moved, draft: without }): CrewMove => {
    const at = sound.findIndex((one) => one.draft === without);
    if (at < 0) return { moved, effect: { kind: 'needed', steps: emptySteps(day, without) } };
    const figures = others[at]!;
    const gain = (of: 'good' | 'cost'): Interval =>
      differenceInterval(figures[of].slice(0, count), whole![of].slice(0, count), 0.95, sound.length);
    return {
      moved,
      effect: {
        kind: 'tried',
        good: gain('good'),
        cost: trials.economy === 'cost' ? gain('cost') : null,
        chances: level === null ? null : [share(figures.good), share(whole!.good)],
      },
    };
  });
}

/** Names of the steps at which nobody, or one where it takes two, would stand, or could finish a piece. */
const emptySteps = (day: Day, draft: Draft): string[] =>
  [
    ...brokenRules(day, withDraft(day, draft)).flatMap((rule) =>
      rule.kind === 'nobody there' ? [rule.step] : [],
    ),
    ...wholeTooLong(day, draft),
  ].map((step) => nameOf(day.shift.steps, step));

/** A draft with each of its moves taken back in turn, as far as all steps stay covered. */
export const simpler = (day: Day, draft: Draft): Draft[] =>
  leftOut(day, draft)
    .map((one) => one.draft)
    .filter((one) => isSound(day, one));

/** The draft with one of its moves taken back, for each of them. */
function leftOut(day: Day, draft: Draft): { moved: Moved; draft: Draft }[] {
  const file = asFiled(day);
  const [before, after] = [file, draft].map((one) => sheetOf(day, withDraft(day, one)));
  const people = day.present.flatMap((id) => {
    const [was, is] = [file.people[id]!, draft.people[id]!];
    if (JSON.stringify(was) === JSON.stringify(is)) return [];
    const find = (sheet: typeof before): SheetPerson => sheet!.people.find((one) => one.id === id)!;
    const moved: Moved = { kind: 'person', name: find(after).name, before: find(before), after: find(after) };
    return [{ moved, draft: withPerson(draft, id, was) }];
  });
  const overtime =
    JSON.stringify(file.overtime) === JSON.stringify(draft.overtime)
      ? []
      : [
          {
            moved: {
              kind: 'overtime' as const,
              before: file.overtime,
              after: draft.overtime,
              names: (draft.overtime?.who ?? []).map(
                (id) => day.shift.people.find((person) => person.id === id)!.name,
              ),
            },
            draft: { ...draft, overtime: file.overtime },
          },
        ];
  const { steps } = resolve(day.scenario);
  const starts = Object.entries(draft.lastStart).map(([id, at]) => {
    const { [id]: _gone, ...others } = draft.lastStart;
    const step = steps.find((one) => one.id === id)!;
    return {
      moved: { kind: 'last start' as const, step: step.name, before: step.lastStart, after: at },
      draft: { ...draft, lastStart: others },
    };
  });
  return [...people, ...overtime, ...starts];
}
