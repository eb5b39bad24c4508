/** Rows of shards, read stretch by stretch: what is held does not grow with the shifts. */
import { crc32 } from 'node:zlib';
import { parquetMetadataAsync, type FileMetaData } from 'hyparquet';
import { layoutOfShift } from '../record/layout.ts';
import type { ResolvedShift } from '../scenario/resolve.ts';
import { ABOUT, type RowStretch, type ShardAbout } from './about.ts';
import { columnsOfShift } from './columns.ts';
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

/** The rows of a stretch, as the engine would have written them. @throws ShardWrong where bytes were lost. */
export async function rowsOf(
  { file, metadata, about }: OpenShard,
  stretch: RowStretch,
  shift: ResolvedShift,
): Promise<Float64Array> {
  const bytes = await file.read(stretch.start, stretch.end);
  if (bytes.byteLength !== stretch.end - stretch.start || crc32(new Uint8Array(bytes)) !== stretch.sum)
    throw new ShardWrong(
      `${file.name} is damaged: its shifts ${stretch.from} to ${stretch.from + stretch.count - 1} are not what was written. Play it again: clampwright rows`,
    );
  const { size } = layoutOfShift(shift);
  const places = new Map(columnsOfShift(shift).map((name, place) => [name, place]));
  const rows = new Float64Array(size * stretch.count);
  await readStretch(metadata, about.stretches.indexOf(stretch), stretch, bytes, (name, values, from) => {
    const place = places.get(name);
    if (place === undefined) return;
    for (let i = 0; i < values.length; i++)
      rows[(from + i) * size + place] = (values[i] as number | null) ?? NaN;
  });
  return rows;
}
