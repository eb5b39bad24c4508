/**
 * Columns in Apache Parquet, in stretches of rows (row groups) that are read one at a time. Snappy, since
 * every reader of Parquet has it.
 */
import { parquetRead, type FileMetaData, type SchemaElement } from 'hyparquet';
import { ByteWriter, ParquetWriter } from 'hyparquet-writer';

/** A column by name: numbers, whole numbers, or text; null where a row has none. */
export interface Column {
  name: string;
  kind: 'number' | 'whole' | 'text';
  /** Every row has a value: nothing is written of which have, which takes longer than the values. */
  always?: boolean;
}

/** By name; a column that is left out has no value in any of these rows. */
export type Values = Record<string, Float64Array | Int32Array | readonly (string | number | null)[]>;

/** Takes bytes in order. */
export type Sink = (bytes: Uint8Array) => Promise<void>;

/** A stretch of rows as it stands in the file. */
export interface Stretch {
  start: number;
  end: number;
}

/** Writes a file stretch by stretch; no more than one of them is held at a time. */
export class ColumnWriter {
  private readonly bytes = new ByteWriter();
  private readonly parquet: ParquetWriter;
  private readonly columns: readonly Column[];
  private readonly sink: Sink;
  private readonly about: { key: string; value?: string }[] = [];

  constructor(columns: readonly Column[], sink: Sink, createdBy: string) {
    this.columns = columns;
    this.sink = sink;
    this.parquet = new ParquetWriter({
      writer: this.bytes,
      schema: schemaOf(columns),
      statistics: false,
      kvMetadata: this.about,
      createdBy,
    });
  }

  /** Writes so many rows. @param watch is handed their bytes before they leave. */
  async write(
    rows: number,
    values: Values,
    watch: (bytes: Uint8Array) => void = () => undefined,
  ): Promise<Stretch> {
    await this.flush();
    const start = this.bytes.offset;
    const none = new Array<null>(rows).fill(null);
    await this.parquet.write({
      columnData: this.columns.map(({ name }) => ({
        name,
        data: (values[name] ?? none) as number[],
        offsetIndex: false,
      })),
      rowGroupSize: rows,
    });
    const end = this.bytes.offset;
    watch(this.bytes.getBytes());
    await this.flush();
    return { start, end };
  }

  /** Ends the file, with texts about it under their keys. */
  async finish(about: Record<string, string>): Promise<void> {
    for (const [key, value] of Object.entries(about)) this.about.push({ key, value });
    await this.parquet.finish();
    await this.flush();
  }

  private async flush(): Promise<void> {
    await this.sink(this.bytes.getBytes().slice());
    this.bytes.index = 0;
  }
}

const TYPES: Record<Column['kind'], Partial<SchemaElement>> = {
  number: { type: 'DOUBLE' },
  whole: { type: 'INT32' },
  text: { type: 'BYTE_ARRAY', converted_type: 'UTF8' },
};

const schemaOf = (columns: readonly Column[]): SchemaElement[] => [
  { name: 'root', num_children: columns.length },
  ...columns.map(({ name, kind, always }): SchemaElement => ({
    name,
    repetition_type: always === true ? 'REQUIRED' : 'OPTIONAL',
    ...TYPES[kind],
  })),
];

/** Texts about the file, by key. */
export const aboutOf = ({ key_value_metadata }: FileMetaData, key: string): string | undefined =>
  key_value_metadata?.find((one) => one.key === key)?.value;

/**
 * Reads columns of the `group`-th stretch of rows from its bytes.
 * @param take is told each column's values, in parts, and the row at which each part begins.
 */
export async function readStretch(
  metadata: FileMetaData,
  group: number,
  { start, end }: Stretch,
  bytes: ArrayBuffer,
  columns: string[],
  take: (name: string, values: ArrayLike<unknown>, from: number) => void,
): Promise<void> {
  const row_groups = metadata.row_groups.slice(group, group + 1);
  await parquetRead({
    file: {
      byteLength: end,
      slice: (from, to = end) => {
        if (from < start || to > end) throw new RangeError('outside this stretch of rows');
        return bytes.slice(from - start, to - start);
      },
    },
    // With this one alone: to look for it among all of them takes longer than to read it.
    metadata: { ...metadata, row_groups, num_rows: row_groups[0]!.num_rows },
    columns,
    onChunk: ({ columnName, columnData, rowStart }) => take(columnName, columnData, rowStart),
  });
}
