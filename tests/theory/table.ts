/** Theory against run as a table, a case at a time. */
import { THEORY } from './cases/all.ts';
import { runCase, type Outcome, type TheoryCase } from './case.ts';

export type Length = 'short' | 'full';

const CASES: { title: string | null; one: TheoryCase }[] = THEORY.flatMap(({ title, cases }) =>
  cases.map((one, at) => ({ title: at === 0 ? title : null, one })),
);
export const CASE_COUNT = CASES.length;

const digits = (value: number): string => (Number.isInteger(value) ? String(value) : value.toPrecision(7));
const signed = (value: number, places: number): string =>
  value === 0 ? '0' : `${value > 0 ? '+' : ''}${value.toFixed(places)}`;

/**
 * Within 3.3 standard errors, and half a per cent at full length; clear of what it must not be by ten
 * standard errors.
 */
export function holds({ measure, got, error, errors, relative }: Outcome, length: Length): boolean {
  if (error === 0) return Math.abs(relative) < 1e-9;
  const clear = (measure.not ?? []).every(({ value }) => Math.abs(got - value) > 10 * error);
  return clear && Math.abs(errors) < 3.3 && (length === 'short' || Math.abs(relative) < 0.005);
}

export interface CaseRows {
  lines: string[];
  wrong: number;
  count: number;
}

/**
 * Runs a case, 0 to CASE_COUNT - 1, and says what to print: its heading where it is the first of its kind,
 * and a row a figure.
 */
export function caseRows(at: number, length: Length, markdown: boolean): CaseRows {
  const { title, one } = CASES[at]!;
  const lines = title === null ? [] : headOf(title, markdown);
  let wrong = 0;
  const outcomes = runCase(one, length);
  for (const outcome of outcomes) {
    const good = holds(outcome, length);
    wrong += good ? 0 : 1;
    const name = `${one.name}: ${outcome.measure.name}`;
    const row = cells(outcome);
    if (markdown)
      lines.push(`| ${name}${good ? '' : ' (does not hold)'} | ${one.source} | ${row.join(' | ')} |`);
    else
      lines.push(
        `${good ? '  ' : '! '}${name.padEnd(100)} ${row.map((cell) => cell.padStart(11)).join(' ')}   ${one.source}`,
      );
  }
  return { lines, wrong, count: outcomes.length };
}

function headOf(title: string, markdown: boolean): string[] {
  const heads = ['expected', 'got', 'standard errors', 'away', 'runs'];
  if (!markdown)
    return [
      '',
      `${title.padEnd(102)} ${heads.map((head) => head.slice(0, 11).padStart(11)).join(' ')}   source`,
    ];
  return [
    '',
    `### ${title}`,
    '',
    `| case | source | ${heads.join(' | ')} |`,
    '| --- | --- | --: | --: | --: | --: | --: |',
  ];
}

function cells({ measure, got, error, errors, relative, replications }: Outcome): string[] {
  if (error === 0) return [digits(measure.expected), digits(got), 'exact', '0', String(replications)];
  return [
    digits(measure.expected),
    digits(got),
    signed(errors, 2),
    `${signed(100 * relative, 3)} %`,
    String(replications),
  ];
}
