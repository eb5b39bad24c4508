/** Prints theory against run: `npm run theory`, with `-- --markdown` as a table for DEVELOPERS.md, `-- --short` as the tests run it. */
import { THEORY } from './cases/all.ts';
import { runCase, type Outcome } from './case.ts';

const digits = (value: number): string => (Number.isInteger(value) ? String(value) : value.toPrecision(7));
const signed = (value: number, places: number): string => (value === 0 ? '0' : `${value > 0 ? '+' : ''}${value.toFixed(places)}`);

/** Within 3.3 standard errors, and half a per cent at full length; clear of what it must not be by ten standard errors. */
export function holds({ measure, got, error, errors, relative }: Outcome, length: 'short' | 'full'): boolean {
  if (error === 0) return Math.abs(relative) < 1e-9;
  const clear = (measure.not ?? []).every(({ value }) => Math.abs(got - value) > 10 * error);
  return clear && Math.abs(errors) < 3.3 && (length === 'short' || Math.abs(relative) < 0.005);
}

function cells(outcome: Outcome): string[] {
  const { measure, got, error, errors, relative, replications } = outcome;
  const relation = error === 0 ? '0' : `${signed(100 * relative, 3)} %`;
  return [digits(measure.expected), digits(got), error === 0 ? 'exact' : signed(errors, 2), relation, String(replications)];
}

/** All cases in order; `tell` gets every line as it is known. Returns how many figures did not hold, and of how many. */
export function theoryTable(length: 'short' | 'full', markdown: boolean, tell: (line: string) => void): { wrong: number; count: number } {
  const heads = ['expected', 'got', 'standard errors', 'away', 'replications'];
  let [wrong, count] = [0, 0];
  for (const { title, cases } of THEORY) {
    tell(markdown ? `\n### ${title}\n\n| case | source | ${heads.join(' | ')} |\n| --- | --- | --: | --: | --: | --: | --: |` : `\n${title}`);
    for (const one of cases) {
      for (const outcome of runCase(one, length)) {
        const good = holds(outcome, length);
        wrong += good ? 0 : 1;
        count += 1;
        const name = `${one.name}: ${outcome.measure.name}`;
        const row = cells(outcome);
        if (markdown) tell(`| ${name}${good ? '' : ' (does not hold)'} | ${one.source} | ${row.join(' | ')} |`);
        else tell(`${good ? '  ' : '! '}${name.padEnd(100)} ${row.map((cell) => cell.padStart(11)).join(' ')}   ${one.source}`);
      }
    }
  }
  tell(`\n${count - wrong} of ${count} figures hold: within 3.3 standard errors${length === 'full' ? ' and 0.5 %' : ''} of theory; fixed times exactly.`);
  return { wrong, count };
}
