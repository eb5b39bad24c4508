/**
 * A crew's shifts and posts as a calendar file (RFC 5545). Times are floating local ones ("06:00 wherever the
 * shop is"): a shop has no time zone in its file, and a shift that starts at six starts at six.
 *
 * Written here, because the libraries at hand send floating times through the machine's own time zone (which
 * moves those in the hour that daylight saving leaves out) and fold lines by characters where the standard
 * counts octets.
 */
import { clockOfMinutes } from '../scenario/clock.ts';

export interface CalendarEvent {
  /** The same for the same thing, so that a file read in again replaces it. */
  uid: string;
  /** "YYYY-MM-DD". */
  day: string;
  /** Minutes after midnight of `day`; 1440 and more are the day after. */
  from: number;
  to: number;
  summary: string;
  description?: string;
  location?: string;
  categories?: string[];
}

/** One person's day on the crew sheet. Minutes after midnight of the day. */
export interface PersonDay {
  id: string;
  name: string;
  from: number;
  to: number;
  /** What they cover from when to when, in order; steps by name, with the help they need. */
  posts: { from: number; to: number; steps: string[] }[];
  breaks: { from: number; minutes: number; name: string }[];
  /** Times on another line. */
  away: { from: number; minutes: number }[];
  /** Most minutes that they may be asked to stay after `to`; 0: none. */
  overtime: number;
}

export interface CrewDay {
  /** "YYYY-MM-DD". */
  day: string;
  cell: string;
  people: PersonDay[];
}

/**
 * The events of a crew’s day: one for each person’s shift, one for each post where they change posts, for
 * each time away, and for the overtime they may be asked for.
 */
export function crewEvents({ day, cell, people }: CrewDay): CalendarEvent[] {
  return people.flatMap((person) => {
    const uid = (what: string): string => `${day}-${slug(cell)}-${person.id}-${what}@clampwright`;
    const breaks = person.breaks.map((one) => `${clockOfMinutes(one.from)} ${one.name}, ${one.minutes} min`);
    const posts = person.posts.map(
      (post) => `${clockOfMinutes(post.from)} to ${clockOfMinutes(post.to)}: ${post.steps.join(', ')}`,
    );
    const away = person.away.map(
      ({ from, minutes }) =>
        `${clockOfMinutes(from)} to ${clockOfMinutes(from + minutes)}: away, another line`,
    );
    const { overtime, to } = person;
    const stays =
      overtime === 0 ? [] : [`may be asked to stay until ${clockOfMinutes(to + overtime)} (overtime)`];
    const shift: CalendarEvent = {
      uid: uid('shift'),
      day,
      from: person.from,
      to: person.to,
      summary: `${person.name}: ${cell}`,
      description: [...posts, ...breaks, ...away, ...stays].join('\n'),
      location: cell,
      categories: ['shift'],
    };
    const around = { day, location: cell };
    const others = [
      ...person.away.map(({ from, minutes }, index): CalendarEvent => ({
        ...around,
        uid: uid(`away-${index + 1}`),
        from,
        to: from + minutes,
        summary: `${person.name}: away, another line`,
        categories: ['away'],
      })),
      ...(overtime === 0
        ? []
        : [
            {
              ...around,
              uid: uid('overtime'),
              from: to,
              to: to + overtime,
              summary: `${person.name}: overtime, if asked`,
              categories: ['overtime'],
            },
          ]),
    ];
    if (person.posts.length < 2) return [shift, ...others];
    return [
      shift,
      ...others,
      ...person.posts.map((post, index): CalendarEvent => ({
        uid: uid(`post-${index + 1}`),
        day,
        from: post.from,
        to: post.to,
        summary: `${person.name}: ${post.steps.join(', ')}`,
        location: cell,
        categories: ['post'],
      })),
    ];
  });
}

/** The calendar file. `stamp`: when it was made, milliseconds since 1970 (UTC), the caller's to say. */
export function calendarFile(
  events: CalendarEvent[],
  { stamp, name }: { stamp: number; name?: string },
): string {
  const made = `${digits(new Date(stamp).toISOString().slice(0, 19))}Z`;
  const lines = [
    'BEGIN:VCALENDAR',
    'VERSION:2.0',
    'PRODID:-//clampwright//crew sheet//EN',
    'CALSCALE:GREGORIAN',
    'METHOD:PUBLISH',
    // The name of a calendar by RFC 7986, not by a maker's own word.
    ...(name === undefined ? [] : [`NAME:${escapeText(name)}`]),
    ...events.flatMap((event) => eventLines(event, made)),
    'END:VCALENDAR',
  ];
  return lines.map((line) => `${foldLine(line)}\r\n`).join('');
}

function eventLines(event: CalendarEvent, made: string): string[] {
  const { description, location, categories } = event;
  return [
    'BEGIN:VEVENT',
    `UID:${escapeText(event.uid)}`,
    `DTSTAMP:${made}`,
    `DTSTART:${floating(event.day, event.from)}`,
    `DTEND:${floating(event.day, event.to)}`,
    `SUMMARY:${escapeText(event.summary)}`,
    ...(description ? [`DESCRIPTION:${escapeText(description)}`] : []),
    ...(location ? [`LOCATION:${escapeText(location)}`] : []),
    ...(categories?.length ? [`CATEGORIES:${categories.map(escapeText).join(',')}`] : []),
    'END:VEVENT',
  ];
}

/** A date and time without a zone, to the second. Reckoned in UTC, which has no hour left out. */
function floating(day: string, minutes: number): string {
  const time = Date.parse(`${day}T00:00:00Z`) + Math.round(minutes * 60) * 1000;
  if (!Number.isFinite(time)) throw new RangeError(`a day is written YYYY-MM-DD, not "${day}"`);
  return digits(new Date(time).toISOString().slice(0, 19));
}

const digits = (iso: string): string => iso.replace(/[-:]/g, '');

const slug = (text: string): string =>
  text
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-|-$/g, '') || 'cell';

/** TEXT of section 3.3.11: any kind of line break is one, other control characters are not allowed and go. */
function escapeText(text: string): string {
  return (
    text
      .replace(/[\\;,]/g, '\\$&')
      .replace(/\r\n|[\n\r\u2028\u2029\u0085]/g, '\\n')
      // eslint-disable-next-line no-control-regex -- they are what is looked for
      .replace(/[\u0000-\u0008\u000B-\u001F\u007F]/g, '')
  );
}

const MOST_OCTETS = 75;

/**
 * Section 3.1: no line longer than 75 octets, the next ones begin with a blank; a character is never split.
 */
function foldLine(line: string): string {
  let folded = '';
  let octets = 0;
  for (const character of line) {
    const size = octetsOf(character);
    if (octets + size > MOST_OCTETS) {
      folded += '\r\n ';
      octets = 1;
    }
    folded += character;
    octets += size;
  }
  return folded;
}

/** Octets of one character in UTF-8. */
function octetsOf(character: string): number {
  const code = character.codePointAt(0)!;
  if (code < 0x80) return 1;
  if (code < 0x800) return 2;
  return code < 0x10000 ? 3 : 4;
}
