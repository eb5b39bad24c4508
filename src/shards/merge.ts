/**
 * Shards put together: they must be of one question, version and seed and leave no shift out and none twice.
 * Then a runner that reads rows instead of playing shifts lets the question's own command answer: the same
 * code on the same rows in the same order, so the same bytes.
 */
import type { Job, JobResult, Runner } from '../record/job.ts';
import { layoutOfShift } from '../record/layout.ts';
import type { ResolvedShift } from '../scenario/resolve.ts';
import { dayKey, type ShardQuestion } from './about.ts';
import {
  columnsOfStretch,
  inRows,
  openShard,
  ShardWrong,
  type OpenShard,
  type ShardFile,
  type StretchColumns,
} from './read-shard.ts';

interface Part {
  file: ShardFile;
  from: number;
  count: number;
}

/** Shards that can be put together, by their first replication. */
export interface ShardSet {
  question: ShardQuestion;
  version: string;
  count: number;
  parts: Part[];
}

/** @param files in any order. @throws ShardWrong in words. */
export async function shardSet(files: readonly ShardFile[]): Promise<ShardSet> {
  const parts: Part[] = [];
  let first: { name: string; question: ShardQuestion; version: string } | null = null;
  for (const file of files) {
    const { about } = await openShard(file);
    const { question, version, from, count } = about;
    first ??= { name: file.name, question, version };
    if (version !== first.version)
      throw new ShardWrong(
        `${file.name} is of version ${version}, ${first.name} of ${first.version}: figures may differ between versions. Play all of them with one.`,
      );
    const other = whatDiffers(first.question, question);
    if (other !== null)
      throw new ShardWrong(`${file.name} and ${first.name} are not of one question: ${other}.`);
    parts.push({ file, from, count });
  }
  if (first === null) throw new ShardWrong('There are no shards to put together.');
  parts.sort((a, b) => a.from - b.from);
  return { ...first, parts, count: wholeCount(parts) };
}

function whatDiffers(one: ShardQuestion, other: ShardQuestion): string | null {
  if (one.command !== other.command) return `“${one.command}” and “${other.command}”`;
  if (one.seed !== other.seed) return `the seeds are “${one.seed}” and “${other.seed}”`;
  if (one.scenario.text !== other.scenario.text) return 'their scenarios differ';
  if (one.scenario.shown !== other.scenario.shown)
    return `their scenarios go by “${one.scenario.shown}” and “${other.scenario.shown}”`;
  return JSON.stringify(one.words) === JSON.stringify(other.words) ? null : 'the words behind it differ';
}

/** Shifts in all, from 0 on. */
function wholeCount(parts: readonly Part[]): number {
  let until = 0;
  let last: Part | null = null;
  for (const part of parts) {
    const { from, count, file } = part;
    if (from > until)
      throw new ShardWrong(
        `Shifts ${until} to ${from - 1} are missing: clampwright rows … --from ${until} --count ${from - until}`,
      );
    if (from < until)
      throw new ShardWrong(
        `Shifts ${from} to ${Math.min(until, from + count) - 1} are in ${last!.file.name} and in ${file.name}. Leave one of them out.`,
      );
    until += count;
    last = part;
  }
  return until;
}

/** So many shards are open at a time: a block of shifts may begin in one and end in the next. */
const MOST_OPEN = 3;

/** Answers jobs with the rows of shards; what they do not hold (runs with other inputs) is played. */
export class ShardRunner implements Runner {
  readonly width: number;
  /** Days that were asked for and are in no shard, played here. */
  readonly missing = new Set<string>();
  private readonly set: ShardSet;
  private readonly played: Runner;
  private readonly keys = new WeakMap<ResolvedShift[], string>();
  private readonly open = new Map<Part, Promise<OpenShard>>();
  /** By day and shift the stretch last read of it, since jobs go on where the last one ended. */
  private readonly at = new Map<string, { part: Part; start: number; columns: Promise<StretchColumns> }>();

  constructor(set: ShardSet, played: Runner) {
    this.set = set;
    this.played = played;
    this.width = played.width;
  }

  async run(job: Job, signal?: AbortSignal): Promise<JobResult> {
    signal?.throwIfAborted();
    if (job.varied !== undefined || job.lists !== undefined) return this.played.run(job, signal);
    const key = this.keyOf(job.shifts);
    const first = await this.shardAt(job.from);
    if (!first.about.days.includes(key)) {
      this.missing.add(key);
      return this.played.run(job, signal);
    }
    const rows = await Promise.all(job.shifts.map((_, shift) => this.rows(job, key, shift)));
    return { from: job.from, count: job.count, rows };
  }

  close(): Promise<void> {
    return this.played.close();
  }

  private keyOf(shifts: ResolvedShift[]): string {
    const key = this.keys.get(shifts) ?? dayKey(shifts);
    this.keys.set(shifts, key);
    return key;
  }

  private async rows(job: Job, key: string, shift: number): Promise<Float64Array> {
    const one = job.shifts[shift]!;
    const rows = new Float64Array(job.count * layoutOfShift(one).size);
    const end = job.from + job.count;
    for (let at = job.from; at < end;) {
      const stretch = await this.stretch(at, key, one, shift);
      const until = Math.min(stretch.from + stretch.count, end);
      inRows(stretch, at, until, rows, at - job.from);
      at = until;
    }
    return rows;
  }

  private async stretch(
    replication: number,
    key: string,
    one: ResolvedShift,
    shift: number,
  ): Promise<StretchColumns> {
    const part = this.partOf(replication);
    const shard = await this.shardAt(replication);
    const day = shard.about.days.indexOf(key);
    const stretch = shard.about.stretches.find(
      (has) =>
        has.day === day &&
        has.shift === shift &&
        has.from <= replication &&
        replication < has.from + has.count,
    );
    if (stretch === undefined)
      throw new ShardWrong(`${shard.file.name} does not hold shift ${replication} of all that it should.`);
    const place = `${key} ${shift}`;
    let held = this.at.get(place);
    if (held?.part !== part || held.start !== stretch.start) {
      held = { part, start: stretch.start, columns: columnsOfStretch(shard, stretch, one) };
      this.at.set(place, held);
    }
    return held.columns;
  }

  private partOf(replication: number): Part {
    const part = this.set.parts.find(({ from, count }) => from <= replication && replication < from + count);
    if (part === undefined) throw new ShardWrong(`No shard holds shift ${replication}.`);
    return part;
  }

  private shardAt(replication: number): Promise<OpenShard> {
    const part = this.partOf(replication);
    const known = this.open.get(part) ?? openShard(part.file);
    this.open.delete(part);
    this.open.set(part, known);
    if (this.open.size > MOST_OPEN) this.open.delete(this.open.keys().next().value!);
    return known;
  }
}
