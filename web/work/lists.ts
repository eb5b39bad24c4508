/** Lists of times and records of events, read and fitted in a worker: a million rows take many seconds. */
import type { DayAsItWas } from '../../src/today/why-missed.ts';
import type { Scenario } from '../../src/scenario/schema.ts';
import type { LogDay } from '../../src/timing/log-book.ts';
import type { Mapping } from '../../src/timing/mapping.ts';
import type { Observation } from '../../src/timing/observation.ts';
import type { ReadAccount } from '../../src/timing/read-observations.ts';
import type { PlaceStudy, TimesStudy } from '../../src/timing/study-times.ts';
import { pool, type Asking, type Kept } from '../../src/work/pool.ts';
import { forWorker } from '../store/files.ts';
import Maker from './list-worker.ts?worker';
import { sayLost } from './lost.ts';
import { aTurn } from './turn.ts';
import { workers } from './worker.ts';

/** A file as it was chosen, or text that was pasted. */
export type ListSource = Blob | string;
/** As a worker is given it: a file may have been read for it. */
export type ReadableSource = ListSource | Uint8Array;

export interface TimesQuestion {
  kind: 'times';
  /** Null: the list read last. */
  source: ReadableSource | null;
  /** Null: as it can be guessed. */
  mapping: Mapping | null;
  scenario: Scenario;
  /** Times taken by the stopwatch, behind those of the list. */
  taken: Observation[];
  /** Times left out, by `timeKey`. */
  leaveOut: string[];
}

export interface EventsQuestion {
  kind: 'events';
  source: ReadableSource;
  scenario: Scenario;
  /** Day of the record, YYYY-MM-DD. */
  date: string;
}

export type ListQuestion = TimesQuestion | EventsQuestion;

/** What a page shows of a list; the list itself stays with the worker. */
export interface ListHead {
  header: string[];
  /** Cells of the first rows. */
  first: string[][];
  length: number;
  notes: string[];
}

export interface TimesAnswer {
  kind: 'times';
  head: ListHead;
  mapping: Mapping;
  read: ReadAccount;
  study: TimesStudy;
}

export interface EventsAnswer {
  kind: 'events';
  events: number;
  /** What is to be said of how the file was read; null where there is nothing to say. */
  note: string | null;
  unread: { rows: number; first: string };
  day: DayAsItWas & { good: number };
  times: NonNullable<LogDay['times']>;
  pace: Record<string, number>;
}

export type ListAnswer = TimesAnswer | EventsAnswer;

/**
 * How far it has come. A place of the work comes along as it is done: all at once, with a million times,
 * would hold the page up.
 */
export type ListStage =
  | { kind: 'rows' }
  | { kind: 'times'; rows: number }
  | { kind: 'fits'; place: PlaceStudy; done: number; of: number };

/** The fit of one step of a long list on a slow machine stays far under this. */
const SILENCE = 120_000;

/**
 * A page's worker for lists. It keeps the list read last, so that another meaning of a column does not read
 * it again.
 */
export class Lists {
  private readonly workers = pool<ListQuestion, ListAnswer, ListStage>({
    transport: workers(() => new Maker()),
    width: 1,
    silence: SILENCE,
    tries: 2,
    // Reading and fitting cannot be interrupted: a list that is stopped ends its worker.
    patience: 0,
    lost: sayLost,
  });

  async times(
    asked: Omit<TimesQuestion, 'kind' | 'source'> & { source: ListSource },
    asking: Asking<ListStage>,
  ): Promise<TimesAnswer> {
    const { source } = asked;
    let places: PlaceStudy[] = [];
    const onStage = (stage: ListStage): void => {
      // Where a worker was lost, another begins again.
      if (stage.kind === 'rows') places = [];
      if (stage.kind === 'fits') places.push(stage.place);
      asking.onStage?.(stage);
    };
    const readable = await forWorker(source);
    let kept: Kept = new Set();
    const answer = await this.workers.ask(
      (known) => {
        kept = known;
        if (known.has(source)) return { ...asked, kind: 'times', source: null };
        // Until this one is read, nothing is certain to be there.
        known.clear();
        return { ...asked, kind: 'times', source: readable };
      },
      { ...asking, onStage },
    );
    if (answer.kind !== 'times') throw new Error('the worker answered another question');
    kept.add(source);
    await aTurn();
    return { ...answer, study: { ...answer.study, places } };
  }

  async events(
    asked: Omit<EventsQuestion, 'kind' | 'source'> & { source: ListSource },
    asking: Asking<ListStage>,
  ): Promise<EventsAnswer> {
    const source = await forWorker(asked.source);
    const answer = await this.workers.ask(() => ({ ...asked, source, kind: 'events' }), asking);
    if (answer.kind !== 'events') throw new Error('the worker answered another question');
    return answer;
  }

  close(): void {
    void this.workers.close();
  }
}

export function stageWords(stage: ListStage | null): string {
  switch (stage?.kind) {
    case undefined:
    case 'rows':
      return 'Reading the rows.';
    case 'times':
      return `${stage.rows.toLocaleString('en-US')} rows; reading what they say.`;
    case 'fits':
      return `Fitting curves: ${stage.done} of ${stage.of} places of the work done.`;
  }
}
