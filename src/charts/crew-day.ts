/**
 * The day of a crew as a picture: a lane a person from the start to the end, their posts in words over a line
 * that is thick where they work and breaks off where they do not. It says the same on the worst black and
 * white printer: nothing hangs on a color or a gray.
 */
import { scaleLinear } from 'd3';
import { clockAt, hourMarks, type Hours, type Scale } from './axis.ts';
import { picture, rule, SIDE, type Size } from './frame.ts';
import { element, inked, type Markup } from './svg.ts';
import { cut, lines, widthOf, words, wrapped } from './words.ts';

/** Minutes from the start of the shift. */
export interface CrewLane {
  name: string;
  /** Which breaks they keep, where not all keep the same: "A". Empty: those of everybody. */
  mark: string;
  from: number;
  to: number;
  posts: { from: number; to: number; words: string }[];
  off: { from: number; to: number; kind: 'break' | 'away' }[];
  /** Until when they may be kept; `to` where they may not. */
  until: number;
  /** What is unlike other days, a few words each. */
  notes: string[];
}

export interface CrewDay {
  title: string;
  description: string;
  hours: Pick<Hours, 'start' | 'length' | 'twelve'>;
  /** Sentences that hold for many lanes and are said once: the breaks. */
  once: string[];
  /** Steps not begun after a time: "no glue-up after 13:50". */
  lasts: { at: number; words: string }[];
  lanes: CrewLane[];
}

export interface CrewDaySize extends Size {
  /** Size of every word in it, px. On paper a px is 0.75 point. */
  text?: number;
  /** Space after each lane beyond what it needs, px. */
  air?: number;
  /** Without what the lines mean, for a sheet that is full. Default: with it. */
  keyed?: boolean;
}

/** In times the size of the text: a line of words, the line of a day, the least between two lanes. */
const [LINE, TRACK, APART] = [1.07, 0.3, 0.18];
const WORK = 'Thick line: at the post. Gap: break.';
const KEY = { until: 'Open end: overtime, at most.', away: 'Dots: on another line.' };

interface Frame {
  text: number;
  left: number;
  width: number;
  x: Scale;
  /** Names stand beside the lanes, not over them. */
  beside: boolean;
}

export function crewDayPicture(
  data: CrewDay,
  { width, id, text = 16, air = 0, keyed = true }: CrewDaySize,
): string {
  const frame = frameOf(data, width, text);
  const { hours } = data;
  const once = data.once.flatMap((sentence) => wrapped(sentence, width - 2 * SIDE, text));
  const marks: Markup[] = [...lines(SIDE, text, once, { size: text })];
  let y = once.length * text * 1.3;
  const lasts = lastsOf(data, frame, y);
  y += lasts.rows * text * LINE;
  const top = y + text * 1.5;
  const lanes: Markup[] = [];
  let bottom = top;
  for (const lane of data.lanes) {
    const drawn = laneOf(lane, hours.length, bottom, frame);
    lanes.push(...drawn.marks);
    bottom += drawn.height + air;
  }
  return picture(
    { width, id },
    {
      title: data.title,
      description: data.description,
      foot: keyed ? { unit: keyOf(data) } : null,
      height: bottom - text * 0.5,
      text,
    },
    hoursAbove(hours, frame, y + text, top, bottom),
    lasts.lines.map((at) => rule(frame.x(at), y + text * 1.2, frame.x(at), bottom, 'ink', 1.2, '5 4')),
    lasts.marks,
    marks,
    lanes,
  );
}

function frameOf({ lanes, hours }: CrewDay, width: number, text: number): Frame {
  const beside = width >= 30 * text;
  const longest = Math.max(0, ...lanes.map((lane) => nameWidth(lane, text)));
  const left = beside ? Math.min(longest + text, width * 0.25) : 0;
  const most = Math.max(hours.length, ...lanes.map((lane) => lane.until));
  const x = scaleLinear()
    .domain([0, most])
    .range([SIDE + left, width - SIDE]);
  return { text, left, width, x, beside };
}

const nameWidth = ({ name, mark }: CrewLane, text: number): number =>
  1.08 * widthOf(name, text) + (mark === '' ? 0 : text + widthOf(mark, text));

/** The hours over the lanes, a hairline down at each. */
function hoursAbove(
  hours: CrewDay['hours'],
  { x, text }: Frame,
  y: number,
  top: number,
  bottom: number,
): Markup[] {
  const [from, to] = x.range() as [number, number];
  const all = { ...hours, length: x.domain()[1]!, breaks: [] };
  return hourMarks(all, ((to - from) * 13) / text).flatMap((minute) => [
    rule(x(minute), top - text * 0.3, x(minute), bottom),
    words(x(minute), y, clockAt(all, minute), {
      size: text,
      anchor: x(minute) - from < text ? 'start' : to - x(minute) < text * 1.4 ? 'end' : 'middle',
    }),
  ]);
}

/** Their words in as few rows as keep them apart, each ending at its line where there is room. */
function lastsOf(
  { lasts }: CrewDay,
  { x, text, width }: Frame,
  top: number,
): { marks: Markup[]; lines: number[]; rows: number } {
  const ends: number[] = [];
  const marks = [...lasts]
    .sort((a, b) => a.at - b.at)
    .map((last) => {
      const wide = widthOf(last.words, text);
      const end = Math.min(width - SIDE, Math.max(SIDE + wide, x(last.at) + text * 0.3));
      const free = ends.findIndex((taken) => taken + text < end - wide);
      const row = free < 0 ? ends.length : free;
      ends[row] = end;
      return words(end, top + row * text * LINE + text, cut(last.words, width, text), {
        size: text,
        weight: 600,
        anchor: 'end',
      });
    });
  return { marks, lines: [...new Set(lasts.map(({ at }) => at))], rows: ends.length };
}

/** One person's lane, its upper edge at y. */
function laneOf(
  lane: CrewLane,
  length: number,
  y: number,
  frame: Frame,
): { marks: Markup[]; height: number } {
  const { text, left, beside, width } = frame;
  const step = text * LINE;
  const room = beside ? left - text * 0.6 : width - 2 * SIDE;
  const mark = lane.mark === '' ? 0 : text + widthOf(lane.mark, text);
  const name = wrapped(lane.name, (room - mark) / 1.06, text).map((line) => cut(line, room - mark, text));
  const over = beside ? 0 : name.length * step;
  const posts = postsOf(lane, length, frame);
  const postRows = Math.max(1, ...posts.map((post) => post.said.length));
  const beyond = besidePost(lane, length, posts, frame);
  const notes =
    lane.notes.length === 0 || beyond !== null ? [] : wrapped(notesOf(lane), width - SIDE - left, text);
  const rows = Math.max(beside ? name.length : 0, postRows + notes.length);
  const first = y + over + text * 0.95;
  const track = y + over + rows * step + text * 0.1;
  const marks = [
    ...name.map((line, i) =>
      words(SIDE, y + text * 0.95 + i * step, line, { size: text, weight: 600, halo: true }),
    ),
    ...(lane.mark === ''
      ? []
      : [words(SIDE + room, y + text * 0.95, lane.mark, { size: text, weight: 600, anchor: 'end' })]),
    ...posts.flatMap(({ at, said }) =>
      lines(at, first, said, { size: text, halo: true }).map((line) => line),
    ),
    ...(beyond === null ? [] : [words(beyond, first, notesOf(lane), { size: text, halo: true })]),
    ...lines(SIDE + left, first + postRows * step, notes, { size: text, halo: true }),
    ...changesOf(lane, y + over, track, frame),
    ...trackOf(lane, track, frame),
  ];
  return { marks, height: track - y + text * (TRACK + APART) };
}

const notesOf = ({ notes }: CrewLane): string => `(${notes.join('; ')})`;

/** Where what is unlike other days stands in the row of the last post; null where it needs one of its own. */
function besidePost(
  lane: CrewLane,
  length: number,
  posts: { at: number; said: string[] }[],
  { x, text }: Frame,
): number | null {
  const last = posts.at(-1);
  if (lane.notes.length === 0 || last === undefined || last.said.length > 1) return null;
  const at = last.at + widthOf(`${last.said[0] ?? ''} `, text) + text * 0.4;
  return at + widthOf(notesOf(lane), text) <= x(Math.max(length, lane.until)) ? at : null;
}

/** A post's words begin where it does; a day's first may reach back over the time before it. */
function postsOf(
  { posts, until }: CrewLane,
  length: number,
  { x, text }: Frame,
): { at: number; said: string[] }[] {
  const end = x(Math.max(length, until));
  return posts.map((post, i) => {
    const from = x(post.from) + (i === 0 ? 0 : text * 0.3);
    const next = posts[i + 1];
    const limit = next === undefined ? end : x(next.from) - text * 0.5;
    const wide = widthOf(post.words, text);
    const at = i === 0 && from + wide > limit ? Math.max(x(0), limit - wide) : from;
    return { at, said: wrapped(post.words, Math.max(text * 3, limit - at), text) };
  });
}

/** A stroke where a post changes. */
const changesOf = ({ posts }: CrewLane, top: number, bottom: number, { x, text }: Frame): Markup[] =>
  posts
    .slice(1)
    .map(({ from }) => rule(x(from), top + text * 0.1, x(from), bottom + text * TRACK, 'ink', 1.4));

/** Thick where somebody works; nothing in a break, dots while away, open for overtime. */
function trackOf({ from, to, until, off }: CrewLane, y: number, { x, text }: Frame): Markup[] {
  const high = text * TRACK;
  const marks: Markup[] = [];
  const cuts = off.filter((one) => one.to > from && one.from < to).sort((a, b) => a.from - b.from);
  let at = from;
  for (const one of [...cuts, { from: to, to, kind: 'break' as const }]) {
    if (one.from > at)
      marks.push(
        element('rect', {
          x: x(at),
          y,
          width: x(Math.min(one.from, to)) - x(at),
          height: high,
          ...inked({ fill: 'ink' }),
        }),
      );
    if (one.kind === 'away')
      marks.push(
        rule(x(one.from) + 2, y + high / 2, x(Math.min(one.to, to)) - 2, y + high / 2, 'ink', 2, '2 4'),
      );
    at = Math.max(at, one.to);
  }
  if (until > to)
    marks.push(
      element('rect', {
        x: x(to),
        y: y + 0.7,
        width: x(until) - x(to) - 0.7,
        height: high - 1.4,
        ...inked({ fill: 'paper', stroke: 'ink' }),
        'stroke-width': 1.4,
      }),
    );
  return marks;
}

function keyOf({ lanes }: CrewDay): string {
  const away = lanes.some((lane) => lane.off.some((off) => off.kind === 'away'));
  const stays = lanes.some((lane) => lane.until > lane.to);
  const sentences = [WORK, ...(away ? [KEY.away] : []), ...(stays ? [KEY.until] : [])];
  return sentences.join(' ').replace(/\.$/, '');
}

/** Posts, hours off and what is unlike other days, a row a person. */
export function crewDayTable({ lanes, hours }: CrewDay): { head: string[]; rows: string[][] } {
  const clock = (minute: number): string => clockAt({ ...hours, breaks: [] }, minute);
  const kinds = lanes.some((lane) => lane.off.length > 0);
  const stays = lanes.some((lane) => lane.until > lane.to);
  const notes = lanes.some((lane) => lane.notes.length > 0);
  return {
    head: [
      '',
      'Stands at, in this order',
      ...(kinds ? ['Breaks and away'] : []),
      ...(stays ? ['Overtime'] : []),
      ...(notes ? ['Unlike other days'] : []),
    ],
    rows: lanes.map((lane) => [
      lane.name,
      lane.posts.map((post) => post.words).join('; '),
      ...(kinds
        ? [
            lane.off
              .map(
                ({ from, to, kind }) =>
                  `${kind === 'away' ? 'away ' : ''}${clock(from)} (${Math.round(to - from)} min)`,
              )
              .join(', ') || '-',
          ]
        : []),
      ...(stays ? [lane.until > lane.to ? `up to ${Math.round(lane.until - lane.to)} min` : '-'] : []),
      ...(notes ? [lane.notes.join('; ') || '-'] : []),
    ]),
  };
}
