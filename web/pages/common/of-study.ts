/** From a study's answer to the data of pictures. */
import type { DayLine, DayLines, Foot, Hours } from '../../../src/charts/index.ts';
import type { ResolvedShift } from '../../../src/scenario/resolve.ts';
import type { ShiftSummary } from '../../../src/study/shift-summary.ts';
import type { CaseSummary, StudySummary } from '../../../src/study/summary.ts';
import { shiftsInARow } from '../../../src/words/study-words.ts';

export const footOf = (study: StudySummary, unit: string): Foot => ({
  unit,
  shifts: study.count,
  inARow: shiftsInARow(study),
  seed: study.seed,
});

export const hoursOf = (shift: ResolvedShift): Hours => ({
  start: shift.start,
  length: shift.length,
  breaks: shift.breaks,
});

/** A line that is hardly ever there needs no picture. */
const WORTH_DRAWING = 0.5;

/** The lines of one shift through the day, in the same order and to the same heights for all the cases. */
export function dayLinesOf(
  cases: { one: CaseSummary; shift: ResolvedShift }[],
  at: number,
  foot: Foot,
): DayLines[] {
  const all = cases.map(({ one }) => one.shifts[at]!);
  const names = [...new Set(all.flatMap((shift) => shift.lines.map(({ step }) => step)))];
  const highest = (step: string): number =>
    Math.max(0, ...all.flatMap((shift) => shift.lines.find((line) => line.step === step)?.high ?? []));
  const drawn = names.filter((step) => highest(step) >= WORTH_DRAWING);
  return cases.map(({ one, shift }, i) => ({
    title: `Lines through the day: ${one.name}`,
    description: describedLines(all[i]!, shift),
    hours: hoursOf(shift),
    binMinutes: all[i]!.binMinutes,
    lines: drawn.flatMap((step): DayLine[] => {
      const line = all[i]!.lines.find((other) => other.step === step);
      const resolved = shift.steps.find((other) => other.id === step);
      if (line === undefined || resolved === undefined) return [];
      return [
        {
          name: `before: ${resolved.name}`,
          median: line.middle,
          low: line.low,
          high: line.high,
          rack: resolved.rack,
          upTo: highest(step),
        },
      ];
    }),
    foot,
  }));
}

function describedLines(shift: ShiftSummary, resolved: ResolvedShift): string {
  const longest = [...shift.lines].sort((a, b) => b.mean.estimate - a.mean.estimate)[0];
  const step = resolved.steps.find(({ id }) => id === longest?.step);
  return longest === undefined || step === undefined
    ? 'There are no lines.'
    : `The longest line is the one before “${step.name}”, ${longest.mean.estimate.toFixed(1)} on average.`;
}
