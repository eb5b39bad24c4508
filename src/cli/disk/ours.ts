/**
 * Whether a file is one that this program writes: only such a file may be overwritten without being asked.
 * Told by what the file says of itself, never by its name.
 */
import { EVENT_COLUMNS } from '../../timing/events-csv.ts';
import { SHEET_COLUMNS } from '../../report/crew-sheet.ts';

export type FileKind =
  | 'scenario'
  | 'events'
  | 'page'
  | 'picture'
  | 'sheet'
  | 'figures'
  | 'calendar'
  | 'unread'
  | 'rows'
  | 'events as XES'
  | 'events in columns';

/** For "is not ..." */
export const WHAT: Record<FileKind, string> = {
  scenario: 'a scenario',
  events: 'a record of events',
  page: 'a page written by clampwright',
  picture: 'a picture drawn by clampwright',
  sheet: 'a crew sheet',
  figures: 'a table of choices',
  calendar: 'a calendar written by clampwright',
  unread: 'a list of lines that could not be read',
  rows: 'rows written by clampwright',
  'events as XES': 'a record of events written by clampwright',
  'events in columns': 'a record of events written by clampwright',
};

const TESTS: Record<FileKind, (text: string) => boolean> = {
  scenario: isScenario,
  events: (text) => firstLine(text) === EVENT_COLUMNS.join(','),
  page: (text) =>
    text.slice(0, 2000).includes('<meta name="generator" content="clampwright">') ||
    /\bclampwright \d+\.\d+\.\d+/.test(text),
  picture: (text) => /^\s*<svg[^>]*\sclass="picture"/.test(text),
  sheet: (text) => firstLine(text) === SHEET_COLUMNS.join(','),
  figures: (text) => firstLine(text).startsWith('Choice,Good units'),
  calendar: (text) => text.includes('PRODID:-//clampwright//'),
  unread: (text) => text.startsWith('{"unreadLine":'),
  // Told by what stands at their end: see isShard.
  rows: () => false,
  'events as XES': (text) => text.includes('<string key="clampwright" '),
  'events in columns': (text) => text.startsWith('PAR1') && text.slice(-2000).includes('clampwright '),
};

export const isOurs = (kind: FileKind, text: string): boolean => TESTS[kind](text);

const firstLine = (text: string): string => text.split(/\r?\n/, 1)[0]!.replace(/^\uFEFF/, '');

function isScenario(text: string): boolean {
  try {
    const value: unknown = JSON.parse(text.replace(/^\uFEFF/, ''));
    return typeof value === 'object' && value !== null && 'steps' in value && 'people' in value;
  } catch {
    return false;
  }
}
