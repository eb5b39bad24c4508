/**
 * Plays a stretch of replications of every day of a question and writes their rows. Each replication is a
 * function of the file, the seed and its number, so it is the same row whoever plays it.
 */
import { crc32 } from 'node:zlib';
import type { JobResult, Runner } from '../record/job.ts';
import { layoutOfShift } from '../record/layout.ts';
import type { ResolvedShift } from '../scenario/resolve.ts';
import { ROWS_KEPT } from '../study/case-record.ts';
import { ABOUT, dayKey, type RowStretch, type ShardAbout, type ShardQuestion } from './about.ts';
import { columnsIn, ROW_KEYS } from './columns.ts';
import { ColumnWriter, type Column, type Sink, type Values } from './parquet.ts';

/** Replications of a stretch: what is held at a time, when written and when read. */
const STRETCH = 4000;
/** Of a job: pieces small enough to keep every thread busy. */
const PIECE = 250;

export interface ShardAsked {
  question: ShardQuestion;
  version: string;
  days: readonly ResolvedShift[][];
  from: number;
  count: number;
}

/** @param onShifts is told how many shifts are done. Throws what the runner and the sink throw. */
export async function writeShard(
  { question, version, days, from, count }: ShardAsked,
  runner: Runner,
  sink: Sink,
  onShifts: (done: number, of: number) => void = () => undefined,
  signal?: AbortSignal,
): Promise<void> {
  const writer = new ColumnWriter(columnsFor(days, from), sink, `clampwright ${version}`);
  const stretches: RowStretch[] = [];
  const steps = partsOf(from, count).flatMap((part) => days.map((_, day) => ({ day, ...part })));
  const play = (at: number): Promise<JobResult[]> | null => {
    const step = steps[at];
    if (step === undefined) return null;
    const results = playPart(days[step.day]!, step.from, step.count, runner, signal);
    // A part that fails is heard of when its turn comes.
    results.catch(() => undefined);
    return results;
  };
  let next = play(0);
  let done = 0;
  for (const [at, step] of steps.entries()) {
    const results = await next!;
    // While this one is written the next is played.
    next = play(at + 1);
    for (const [shift, one] of days[step.day]!.entries()) {
      let sum = 0;
      const stretch = await writer.write(
        step.count,
        valuesOf(one, shift, step, results),
        (bytes) => (sum = crc32(bytes)),
      );
      stretches.push({ ...step, shift, ...stretch, sum });
    }
    done += step.count;
    onShifts(done, count * days.length);
  }
  const about: ShardAbout = { format: 1, version, question, from, count, days: days.map(dayKey), stretches };
  await writer.finish({ [ABOUT]: JSON.stringify(about) });
}

/** The first rows are read in full, later ones less so: a stretch has rows of one sort only. */
function partsOf(from: number, count: number): { from: number; count: number }[] {
  const parts: { from: number; count: number }[] = [];
  for (let at = from; at < from + count;) {
    const until = at < ROWS_KEPT ? ROWS_KEPT : at + STRETCH;
    const many = Math.min(until, from + count) - at;
    parts.push({ from: at, count: many });
    at += many;
  }
  return parts;
}

function playPart(
  shifts: ResolvedShift[],
  from: number,
  count: number,
  runner: Runner,
  signal?: AbortSignal,
): Promise<JobResult[]> {
  const jobs: Promise<JobResult>[] = [];
  for (let at = from; at < from + count; at += PIECE)
    jobs.push(runner.run({ shifts, from: at, count: Math.min(PIECE, from + count - at) }, signal));
  return Promise.all(jobs);
}

/** Columns of the cells; what none of the shard's rows has is left out of it. */
function columnsFor(days: readonly ResolvedShift[][], from: number): Column[] {
  const shifts = days.flat();
  const having = new Map<string, number>();
  for (const shift of shifts)
    for (const name of columnsIn(shift, from).keys()) having.set(name, (having.get(name) ?? 0) + 1);
  const later = new Set(shifts.flatMap((shift) => [...columnsIn(shift, ROWS_KEPT).keys()]));
  return [
    ...ROW_KEYS.map((name): Column => ({ name, kind: 'whole', always: true })),
    ...Array.from(having, ([name, many]): Column => {
      return { name, kind: 'number', always: many === shifts.length && later.has(name) };
    }),
  ];
}

function valuesOf(
  one: ResolvedShift,
  shift: number,
  { day, from, count }: { day: number; from: number; count: number },
  results: readonly JobResult[],
): Values {
  const layout = layoutOfShift(one);
  const values: Values = {
    day: new Int32Array(count).fill(day),
    shift: new Int32Array(count).fill(shift),
    replication: Int32Array.from({ length: count }, (_, i) => from + i),
  };
  const places = [...columnsIn(one, from)];
  const columns = places.map(() => new Float64Array(count));
  let at = 0;
  for (const { rows, count: many } of results)
    // Row by row: each lies in one piece, and the columns are all near at hand.
    for (let row = 0; row < many; row++, at++)
      for (let i = 0; i < places.length; i++)
        columns[i]![at] = rows[shift]![row * layout.size + places[i]![1]]!;
  places.forEach(([name], i) => (values[name] = columns[i]!));
  return values;
}
