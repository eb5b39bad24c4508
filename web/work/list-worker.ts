/** The inside of the worker that reads lists. */
import { resolve } from '../../src/scenario/resolve.ts';
import { dayOfEvents } from '../../src/today/day-of-events.ts';
import { timesOfEvents } from '../../src/timing/event-times.ts';
import { readEvents } from '../../src/timing/events-csv.ts';
import { guessMapping } from '../../src/timing/mapping.ts';
import { paceOfDay } from '../../src/timing/pace-of-day.ts';
import { accountOf, readObservations } from '../../src/timing/read-observations.ts';
import { studyTimes } from '../../src/timing/study-times.ts';
import { cellOf, readTable, type Table } from '../../src/timing/table.ts';
import { decodeText } from '../../src/scenario/reading/decode-text.ts';
import { serve } from '../../src/work/serve.ts';
import { port } from './inside.ts';
import type {
  EventsAnswer,
  EventsQuestion,
  ListAnswer,
  ListHead,
  ListQuestion,
  ListStage,
  ReadableSource,
  TimesAnswer,
  TimesQuestion,
} from './lists.ts';

const SHOWN_ROWS = 6;
type Tell = (stage: ListStage) => void;

let table: Table | null = null;

async function textOf(source: ReadableSource): Promise<{ text: string; note: string | null }> {
  if (typeof source === 'string') return { text: source, note: null };
  const bytes = source instanceof Uint8Array ? source : new Uint8Array(await source.arrayBuffer());
  const decoded = decodeText(bytes);
  if (decoded.kind === 'text') return decoded;
  return { text: '', note: `is no text: ${decoded.why}` };
}

async function times(asked: TimesQuestion, tell: Tell): Promise<TimesAnswer> {
  tell({ kind: 'rows' });
  if (asked.source !== null) {
    const { text, note } = await textOf(asked.source);
    const read = readTable(text);
    table = note === null ? read : { ...read, notes: [`The file ${note}`, ...read.notes] };
  }
  if (table === null) throw new Error('no list was opened');
  const { scenario } = asked;
  const mapping = asked.mapping ?? guessMapping(table, scenario);
  tell({ kind: 'times', rows: table.length });
  const read = readObservations(table, mapping, scenario);
  // Not by spreading: a list may have more times than a call takes arguments.
  const study = studyTimes(scenario, read.observations.concat(asked.taken), {
    leaveOut: new Set(asked.leaveOut),
    onPlace: (place, done, of) => tell({ kind: 'fits', place, done, of }),
  });
  return {
    kind: 'times',
    head: headOf(table),
    mapping,
    read: accountOf(read),
    study: { ...study, places: [] },
  };
}

function headOf(from: Table): ListHead {
  const { header, length, notes } = from;
  const first = Array.from({ length: Math.min(SHOWN_ROWS, length) }, (_, row) =>
    header.map((_name, column) => cellOf(from, row, column)),
  );
  return { header, first, length, notes };
}

async function events({ source, scenario, date }: EventsQuestion, tell: Tell): Promise<EventsAnswer> {
  tell({ kind: 'rows' });
  const { text, note } = await textOf(source);
  const read = readEvents(text, resolve(scenario).start);
  tell({ kind: 'times', rows: read.events.length });
  const { observations } = timesOfEvents(read.events, date);
  return {
    kind: 'events',
    events: read.events.length,
    note,
    unread: { rows: read.unread.length, first: read.unread[0]?.why ?? '' },
    day: dayOfEvents(scenario, read.events),
    pace: paceOfDay(scenario, observations),
    times: observations.map(({ step, product, person, minutes, repeat }) => ({
      step,
      product,
      person,
      minutes,
      repeat,
    })),
  };
}

serve<ListQuestion, ListAnswer, ListStage>(port, {
  answer: (asked, { stage }) => (asked.kind === 'times' ? times(asked, stage) : events(asked, stage)),
});
