import highs from 'highs';
import type { Programme } from '../../../src/study/ceilings/programme.ts';

export type OutsideSolver = (programme: Programme) => number;

/** HiGHS (an independent solver) on the same programme, through the text format both read. */
export async function outsideSolver(): Promise<OutsideSolver> {
  const solver = await highs();
  return (programme) => {
    const columns = [...programme.columns];
    const name = new Map(columns.map(([column], at) => [column, `x${at}`]));
    const sum = (row: string): string =>
      columns
        .flatMap(([column, entries]) => {
          const value = entries.get(row) ?? 0;
          return value === 0 ? [] : [`${value < 0 ? '-' : '+'} ${Math.abs(value)} ${name.get(column)}`];
        })
        .join('\n ');
    const rows = [...programme.bounds].flatMap(([row, most], at) =>
      sum(row) === '' ? [] : [` r${at}: ${sum(row)} <= ${most}`],
    );
    const text = `Maximize\n obj: ${sum(programme.objective)}\nSubject To\n${rows.join('\n')}\nEnd\n`;
    const solution = solver.solve(text);
    if (solution.Status !== 'Optimal') throw new Error(`outside solver: ${solution.Status}`);
    return solution.ObjectiveValue;
  };
}
