/** All figures of choices side by side, one a cell, so that they go into a spreadsheet as they are. */
import type { Table } from '../../charts/index.ts';
import type { StudyCase } from '../../study/study.ts';
import type { StudySummary } from '../../study/summary.ts';
import { chanceHead, shiftsInARow } from '../../words/study-words.ts';
import { cell, three, threeHeads } from './figure-cells.ts';
import { waitingAndStaying } from './side-by-side.ts';

/**
 * @param cases as they were asked. @param names of the cases in their order, where they are not the study's
 *   own.
 */
export function sideBySideTable(
  study: StudySummary,
  cases: readonly Pick<StudyCase, 'shifts' | 'id'>[],
  names = study.cases.map(({ name }) => name),
): Table {
  const found = waitingAndStaying(study, cases);
  const dated = study.cases.filter(({ target }) => target !== null);
  const shifts = shiftsInARow(study);
  const each = shifts > 1 ? ' a shift' : '';
  const over = shifts > 1 ? `, ${shifts} shifts` : '';
  return {
    head: [
      'Choice',
      ...threeHeads(`Good units${each}`),
      `9 in 10 make${over}`,
      `Half make${over}`,
      `1 in 10 makes${over}`,
      ...(dated.length === 0 ? [] : threeHeads(`${chanceHead(dated)}, %`)),
      ...threeHeads(`Against now${each}`),
      `Overtime${each}, min`,
      'A good unit costs',
      ...(found?.waiting ?? []).map(({ name }) => `Waiting: ${name}`),
      ...(found?.after ?? []).map(({ name }) => `Min after the bell: ${name}`),
    ],
    rows: study.cases.map((one, i) => [
      names[i]!,
      ...three(one.good),
      ...[one.spread.nineInTen, one.spread.half, one.spread.oneInTen].map((units) =>
        cell(Math.floor(units), 0),
      ),
      ...(dated.length === 0 ? [] : three(one.target?.chance, 100, 0)),
      ...three(study.pairs.find(({ after }) => after === one.id)?.good),
      cell(one.overtime.estimate, 1),
      cell(one.cost.estimate > 0 ? one.costPerGood : NaN, 2),
      ...(found?.waiting ?? []).map(({ values }) => cell(values[i], 2)),
      ...(found?.after ?? []).map(({ values }) => cell(values[i], 1)),
    ]),
  };
}
