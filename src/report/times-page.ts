/** What the observations say about the times of a scenario, step by step, on one page. */
import type { Scenario } from '../scenario/schema.ts';
import type { TimesForecast } from '../timing/forecast-times.ts';
import type { ReadAccount } from '../timing/read-observations.ts';
import { candidateName } from '../timing/step-fit.ts';
import type { PlaceStudy, TimesStudy } from '../timing/study-times.ts';
import type { Block, Page } from '../document/document.ts';
import { placeName, placeSentences, splitSentences } from '../words/times-words.ts';
import { capitalized, counted, fixed, listed } from '../words/words.ts';

export interface TimesTold {
  scenario: Scenario;
  /** Null where nothing was read from a file. */
  read: ReadAccount | null;
  study: TimesStudy;
  forecast: TimesForecast | null;
  /** Are people to be called by their names? Left out: no. */
  withNames?: boolean;
}

export function timesPage({ scenario, read, study, forecast, withNames = false }: TimesTold): Page {
  const many = study.places.reduce((sum, place) => sum + place.fit.count, 0);
  const fitted = study.places.filter((place) => place.fit.chosen !== null).length;
  const blocks: Block[] = [
    {
      kind: 'heading',
      level: 1,
      text: `${counted(many, 'time')} for ${counted(study.places.length, 'place')} of the work; ${fitted} can be used`,
    },
    ...(read === null ? [] : readBlocks(read, withNames)),
    ...(study.places.length === 0 ? [] : [table(scenario, study)]),
    ...(study.unseen.length === 0
      ? []
      : [
          {
            kind: 'paragraph' as const,
            text: `No times for ${listed(study.unseen.map((place) => placeName(scenario, place)))}: the file’s own stay.`,
          },
        ]),
    ...(forecast === null
      ? []
      : [
          { kind: 'heading' as const, level: 2 as const, text: 'What that means for the shift' },
          { kind: 'list' as const, items: splitSentences(forecast) },
        ]),
    ...study.places.flatMap((place): Block[] => [
      { kind: 'heading', level: 2, text: capitalized(placeName(scenario, place.fit)) },
      { kind: 'list', items: placeSentences(scenario, place, withNames) },
    ]),
    ...(read === null ? [] : unreadBlocks(read)),
  ];
  return { title: `Times: ${scenario.name}`, blocks };
}

function readBlocks(read: ReadAccount, withNames: boolean): Block[] {
  const rows = `${counted(read.times, 'time')} read, ${counted(read.rowsUnread, 'row')} not read${read.rowsUnread > 0 ? ' (listed at the end)' : ''}.`;
  const midnight =
    read.overMidnight === 0 ? '' : ` ${counted(read.overMidnight, 'span')} taken over midnight.`;
  const items = [
    ...read.ambiguous.map((one) => `${one.question} Taken as ${one.assumed}.`),
    ...read.unknown.map((one) =>
      one.role === 'person' && !withNames
        ? `A person is named who is not in the file (${counted(one.rows, 'row')}).`
        : `${capitalized(one.role)} “${one.text}” is not in the file (${counted(one.rows, 'row')})${one.nearest === null ? '' : `; is it “${one.nearest}”?`}`,
    ),
  ];
  return [
    { kind: 'paragraph', text: `${rows}${midnight}` },
    ...(items.length === 0 ? [] : [{ kind: 'list' as const, items }]),
  ];
}

function table(scenario: Scenario, { places, precision }: TimesStudy): Block {
  const rows = places.map(({ fit, drift }: PlaceStudy) => [
    placeName(scenario, fit),
    String(fit.count),
    fit.count === 0 ? '' : fixed(fit.mean, 1),
    fixed(drift.model, 1),
    fit.chosen === null ? 'stays' : candidateName(fit.chosen.kind),
    fit.chosen === null ? '' : fixed(fit.chosen.percentiles.p10, 1),
    fit.chosen === null ? '' : fixed(fit.chosen.percentiles.p90, 1),
    fit.needed === null ? '?' : String(fit.needed.more),
    String(fit.outliers.length),
  ]);
  return {
    kind: 'table',
    rows,
    align: ['left', 'right', 'right', 'right', 'left', 'right', 'right', 'right', 'right'],
    head: ['Step', 'Times', 'Mean', 'File', 'Curve', 'Quick', 'Slow', 'More', 'Far off'],
    caption: `Minutes at a factor of 1, allowance out. More: times still to take for the mean to within ${fixed(precision * 100, 0)} %.`,
  };
}

const MOST_ROWS = 50;

function unreadBlocks({ unread, rowsUnread }: ReadAccount): Block[] {
  if (rowsUnread === 0) return [];
  const items = unread
    .slice(0, MOST_ROWS)
    .map((row) => `Row ${row.row}: ${row.why}${row.text === '' ? '' : ` — ${row.text}`}`);
  if (rowsUnread > items.length) items.push(`and ${rowsUnread - items.length} more`);
  return [
    { kind: 'heading', level: 2, text: 'Rows not read' },
    { kind: 'list', items },
  ];
}
