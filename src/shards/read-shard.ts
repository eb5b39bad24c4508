/** Rows of shards, read stretch by stretch: what is held does not grow with the shifts. */
import { crc32 } from 'node:zlib';
import { parquetMetadataAsync, type FileMetaData } from 'hyparquet';
import { layoutOfShift } from '../record/layout.ts';
import type { ResolvedShift } from '../scenario/resolve.ts';
import { ABOUT, type RowStretch, type ShardAbout } from './about.ts';
import { columnsIn } from './columns.ts';
import { aboutOf, readStretch } from './parquet.ts';

/** A file, read in pieces. */
export interface ShardFile {
  name: string;
  byteLength: number;
  read(start: number, end: number): Promise<ArrayBuffer>;
}

export class ShardWrong extends Error {
  override name = 'ShardWrong';
}

export interface OpenShard {
  file: ShardFile;
  metadata: FileMetaData;
  about: ShardAbout;
}

/** Reads what a shard says of itself. @throws ShardWrong in words. */
export async function openShard(file: ShardFile): Promise<OpenShard> {
  const metadata = await parquetMetadataAsync({
    byteLength: file.byteLength,
    slice: (from, to = file.byteLength) => file.read(from, to),
  }).catch(() => {
    throw new ShardWrong(`${file.name} is no shard, or only a part of one. Play it again: clampwright rows`);
  });
  const about = readAbout(aboutOf(metadata, ABOUT));
  if (about === null)
    throw new ShardWrong(`${file.name} is a table, but was not written by clampwright rows.`);
  return { file, metadata, about };
}

function readAbout(text: string | undefined): ShardAbout | null {
  try {
    const about = JSON.parse(text ?? 'null') as ShardAbout | null;
    return about?.format === 1 ? about : null;
  } catch {
    return null;
  }
}

/** The numbers of a stretch of rows, as they stand in the file: column by column. */
export interface StretchColumns {
  from: number;
  count: number;
  /** Numbers of a row. */
  size: number;
  columns: Part[];
}

/** A column's values from a row of the stretch on, and their place in a row. */
interface Part {
  place: number;
  values: ArrayLike<number>;
  from: number;
}

/** Reads a stretch of a shift's rows. @throws ShardWrong where bytes were lost. */
export async function columnsOfStretch(
  { file, metadata, about }: OpenShard,
  stretch: RowStretch,
  shift: ResolvedShift,
): Promise<StretchColumns> {
  const { from, count, start, end, sum } = stretch;
  const bytes = await file.read(start, end);
  if (bytes.byteLength !== end - start || crc32(new Uint8Array(bytes)) !== sum)
    throw new ShardWrong(
      `${file.name} is damaged: its shifts ${from} to ${from + count - 1} are not what was written. Play it again: clampwright rows`,
    );
  const places = columnsIn(shift, from);
  const group = about.stretches.indexOf(stretch);
  const columns: Part[] = [];
  await readStretch(metadata, group, stretch, bytes, [...places.keys()], (name, values, first) =>
    columns.push({ place: places.get(name)!, values: values as ArrayLike<number>, from: first }),
  );
  return { from, count, size: layoutOfShift(shift).size, columns };
}

/**
 * Writes replications `from` to `until` into `rows` from its row `at` on, as the engine would have. What they
 * were written without is never read, and is a number that is none.
 */
export function inRows(
  { from: first, size, columns }: StretchColumns,
  from: number,
  until: number,
  rows: Float64Array,
  at: number,
): void {
  if (columns.length < size) rows.fill(NaN, at * size, (at + until - from) * size);
  for (const { place, values, from: partFrom } of columns) {
    const begins = first + partFrom;
    const last = Math.min(until, begins + values.length);
    for (let one = Math.max(from, begins); one < last; one++)
      rows[(at + one - from) * size + place] = values[one - begins]!;
  }
}
