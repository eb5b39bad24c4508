/** Choices side by side on the disk: a picture, and a table for a spreadsheet. */
import { Option } from 'commander';
import { sideBySidePicture, type Table } from '../charts/index.ts';
import { writeCsv } from '../document/csv.ts';
import { sideBySide } from '../report/parts/side-by-side.ts';
import { sideBySideTable } from '../report/parts/side-by-side-table.ts';
import type { StudyCase } from '../study/study.ts';
import type { StudySummary } from '../study/summary.ts';
import { makesSentence } from '../words/sentences.ts';
import { mayReplace, replaceFile } from './disk/replace-file.ts';

export interface ChoicesFiles {
  picture?: string;
  table?: string;
  force?: boolean;
}

export const pictureOption = (): Option =>
  new Option('--picture <file>', 'write the choices side by side as a picture (SVG)');
export const tableOption = (): Option =>
  new Option('--table <file>', 'write all figures for a spreadsheet, one a cell (CSV)');

/** Before anything is run. */
export async function mayWriteChoices({ picture, table, force }: ChoicesFiles): Promise<void> {
  await mayReplace(picture, { kind: 'picture', force: force === true });
  await mayReplace(table, { kind: 'figures', force: force === true });
}

/** Returns the names of the files it wrote. */
export async function writeChoices(
  { picture, table, force = false }: ChoicesFiles,
  study: StudySummary,
  cases: readonly StudyCase[],
): Promise<string[]> {
  if (study.count < 2) return [];
  if (picture !== undefined) {
    const drawn = sideBySide(study, cases, {
      ids: study.cases.map(({ id }) => id),
      names: study.cases.map(({ name }) => name),
      words: study.cases.map(({ good }) => makesSentence(good, 'units', 'it')),
    });
    const svg = sideBySidePicture(drawn, { width: PICTURE_WIDTH, id: 'choices' });
    await replaceFile(picture, svg, { kind: 'picture', force });
  }
  if (table !== undefined) await writeTable(table, sideBySideTable(study, cases), force);
  return [picture, table].filter((file) => file !== undefined);
}

/** For a spreadsheet: comma-separated values. */
export async function writeTable(file: string, { head, rows }: Table, force: boolean): Promise<void> {
  await replaceFile(file, writeCsv([head, ...rows.map((row) => row.map(asNumber))]), {
    kind: 'figures',
    force,
  });
}

/** A figure stays a figure: a text with a minus in front would be guarded as if it were a formula. */
const asNumber = (cell: string): string | number => (/^-?\d+(\.\d+)?$/.test(cell) ? Number(cell) : cell);

/** Px: as wide as the planner draws it on a desk. */
const PICTURE_WIDTH = 800;
