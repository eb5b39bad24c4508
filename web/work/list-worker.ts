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
import { serve } from '../../src/work/serve.ts';
import { port } from './inside.ts';
import type {
  EventsAnswer,
  EventsQuestion,
  ListAnswer,
  ListHead,
  ListQuestion,
  ListSource,
  ListStage,
  TimesAnswer,
  TimesQuestion,
} from './lists.ts';

const SHOWN_ROWS = 6;
type Tell = (stage: ListStage) => void;

let table: Table | null = null;

const textOf = (source: ListSource): string | Promise<string> =>
  typeof source === 'string' ? source : source.text();

async function times(asked: TimesQuestion, tell: Tell): Promise<TimesAnswer> {
  tell({ kind: 'rows' });
  if (asked.source !== null) table = readTable(await textOf(asked.source));
  if (table === null) throw new Error('no list was opened');
  const { scenario } = asked;
  const mapping = asked.mapping ?? guessMapping(table, scenario);
  tell({ kind: 'times', rows: table.length });
  const read = readObservations(table, mapping, scenario);
  // Not by spreading: a list may have more times than a call takes arguments.
  const study = studyTimes(scenario, read.observations.concat(asked.taken), {
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
  const read = readEvents(await textOf(source), resolve(scenario).start);
  tell({ kind: 'times', rows: read.events.length });
  const { observations } = timesOfEvents(read.events, date);
  return {
    kind: 'events',
    events: read.events.length,
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
