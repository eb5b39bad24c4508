/** Choices side by side, as a picture and as figures: good units, what waits, who stays after the bell. */
import type { Choice, SideBySide } from '../../charts/index.ts';
import type { ResolvedShift } from '../../scenario/resolve.ts';
import type { Ranged } from '../../money/payback.ts';
import type { StudyCase } from '../../study/study.ts';
import type { CaseSummary, StudySummary } from '../../study/summary.ts';
import type { ShiftSummary } from '../../study/shift-summary.ts';
import { shiftsInARow } from '../../words/study-words.ts';
import { decimalsAlike, differenceAlike } from '../../words/alike.ts';
import { capitalized, fixed, unitsOver } from '../../words/words.ts';
import { valuesOf } from './cases-picture.ts';

/** Something that is there in some of the cases, and its mean a shift in each; null where it is not. */
export interface InEach {
  id: string;
  name: string;
  values: (number | null)[];
}

export interface WaitingAndStaying {
  /** Pieces in the line before each step of hands, on average. */
  waiting: InEach[];
  /** Minutes each person stays after their own end. */
  after: InEach[];
  /** Those of these minutes with the piece that was in hand then; the others are planned. */
  finishing: InEach[];
}

/** Null while the study does not tell its shifts yet. */
export function waitingAndStaying(
  study: Pick<StudySummary, 'cases'>,
  cases: readonly Pick<StudyCase, 'shifts' | 'id'>[],
): WaitingAndStaying | null {
  const pairs = study.cases.map((one) => {
    const asked = cases.find(({ id }) => id === one.id);
    const skip = one.shifts.length - one.shiftsInARow;
    return one.shifts.map((shift, i) => ({ shift, resolved: asked?.shifts[i] })).slice(skip);
  });
  if (pairs.some((shifts) => shifts.length === 0)) return null;
  const of = (
    named: (resolved: ResolvedShift) => { id: string; name: string }[],
    value: (shift: ShiftSummary, id: string) => number | undefined,
  ): InEach[] => {
    const names = new Map<string, string>();
    for (const { resolved } of pairs.flat())
      for (const { id, name } of resolved === undefined ? [] : named(resolved))
        names.set(id, names.get(id) ?? name);
    return [...names].map(([id, name]) => ({
      id,
      name,
      values: pairs.map((shifts) => meanOf(shifts.flatMap(({ shift }) => value(shift, id) ?? []))),
    }));
  };
  return {
    waiting: of(
      ({ steps }) => steps.filter(({ kind }) => kind === 'hands'),
      ({ lines }, id) => lines.find(({ step }) => step === id)?.mean.estimate,
    ),
    after: of(
      ({ people }) => people,
      ({ people }, id) => people.find((one) => one.id === id)?.overtimeMinutes.estimate,
    ),
    finishing: of(
      ({ people }) => people,
      ({ people }, id) => people.find((one) => one.id === id)?.finishing,
    ),
  };
}

const meanOf = (values: number[]): number | null =>
  values.length === 0 ? null : values.reduce((sum, value) => sum + value, 0) / values.length;

/**
 * @param asked the rows in their order: `words` of each for those who do not see the picture.
 */
export function sideBySide(
  study: StudySummary,
  cases: readonly Pick<StudyCase, 'shifts' | 'id'>[],
  {
    ids,
    names,
    words,
    looked = null,
  }: { ids: string[]; names: string[]; words: string[]; looked?: string | null },
): SideBySide {
  const shifts = shiftsInARow(study);
  const found = waitingAndStaying(study, cases);
  const caseOf = (id: string): CaseSummary | undefined => study.cases.find((one) => one.id === id);
  const pairOf = (id: string): Ranged | undefined => study.pairs.find(({ after }) => after === id)?.good;
  const means = decimalsAlike(ids.flatMap((id) => caseOf(id)?.total ?? []));
  const differences = decimalsAlike(ids.flatMap((id) => pairOf(id) ?? []));
  const told = (pair: Ranged): string => {
    const { estimate, range } = differenceAlike(pair, differences);
    return `${estimate}${range === '' ? '' : ` (${range})`}${shifts > 1 ? ' a shift' : ''}`;
  };
  const unit = unitsOver(shifts);
  return {
    title: `${capitalized(unit)}, what waits and who stays, choice by choice`,
    description: names.map((name, i) => `${name}: ${words[i]!}`).join(' '),
    // Several shifts make their targets where each of them does: no line across their sum says that.
    target: shifts > 1 ? null : (study.cases[0]?.target?.units ?? null),
    steps: found?.waiting.map(({ name }) => name) ?? [],
    people: found?.after.map(({ name }) => name) ?? [],
    looked,
    rows: ids.map((id, i): Choice => {
      const one = caseOf(id);
      const at = study.cases.findIndex((other) => other.id === id);
      const pair = pairOf(id);
      const known = one !== undefined && one.count > 1;
      const valuesAt = (list: InEach[]): (number | null)[] | null =>
        at < 0 ? null : list.map(({ values }) => values[at]!);
      return {
        id,
        name: names[i]!,
        values: one === undefined ? [] : valuesOf(one.spread.counts),
        mean: one?.total ?? { estimate: NaN, low: NaN, high: NaN },
        meanWords: known ? fixed(one.total.estimate, means) : 'being run',
        differenceWords: !known ? '' : pair === undefined ? 'on average' : told(pair),
        difference: pair ?? null,
        waiting: found === null ? null : valuesAt(found.waiting),
        after: found === null ? null : valuesAt(found.after),
      };
    }),
    foot: { unit, shifts: study.count, seed: study.seed },
  };
}
