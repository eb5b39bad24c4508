/** What came of a day, as it is written down bit by bit and as the book keeps it. */
import type { Content } from '../../../src/book/kinds.ts';

/** Pieces by cause, in the order they were written. */
export type Causes = [cause: string, pieces: number][];

export interface ResultDraft {
  good: number | null;
  /** Good units of each hour; null where nobody knows. */
  hours: number[] | null;
  scrap: Causes;
  rework: Causes;
  /** Minutes by person. */
  overtime: Record<string, number>;
}

/** From what the book has; null: nothing yet. */
export function resultOf(content: Content<'result'> | null): ResultDraft {
  const pairs = (counted: Record<string, number> | undefined): Causes =>
    counted === undefined ? [] : Object.entries(counted);
  return {
    good: content === null ? null : content.good,
    hours: content?.byHour === undefined ? null : content.byHour,
    scrap: pairs(content?.scrap),
    rework: pairs(content?.rework),
    overtime: content?.overtime === undefined ? {} : content.overtime,
  };
}

/** "0, 2, 3" as units by the hour; null where it holds anything else, or nothing. */
export function hoursIn(text: string): number[] | null {
  const parts = text.split(/[\s,;]+/).filter((part) => part !== '');
  const units = parts.map(Number);
  return units.length > 0 && units.length <= 48 && units.every((one) => Number.isInteger(one) && one >= 0)
    ? units
    : null;
}

/** The list with one cause written, behind its end a new one; a cause of no pieces or no name goes. */
export function changedCause(causes: Causes, at: number, cause: string, pieces: number): Causes {
  const next: Causes = causes.map((one, i) => (i === at ? [cause, pieces] : one));
  if (at === causes.length) next.push([cause, pieces]);
  return next.filter(([name, count]) => name !== '' && count > 0);
}

/** As the book keeps it. What nobody wrote is left out. */
export function contentOf({ good, hours, scrap, rework, overtime }: ResultDraft): Content<'result'> {
  const stayed = Object.entries(overtime).filter(([, minutes]) => minutes > 0);
  return {
    good: good === null ? 0 : good,
    ...(hours === null ? {} : { byHour: hours }),
    ...(scrap.length === 0 ? {} : { scrap: summed(scrap) }),
    ...(rework.length === 0 ? {} : { rework: summed(rework) }),
    ...(stayed.length === 0 ? {} : { overtime: Object.fromEntries(stayed) }),
  };
}

/** A cause that was written twice counts once with all its pieces. */
function summed(causes: Causes): Record<string, number> {
  const sums = new Map<string, number>();
  for (const [cause, pieces] of causes) sums.set(cause, (sums.get(cause) ?? 0) + pieces);
  return Object.fromEntries(sums);
}
