/**
 * A record of events as XES, the eXtensible Event Stream of IEEE 1849: a trace a piece; of each step the
 * start and the completion, paired; who did it. What happens to nobody's piece (a break, gear out of order)
 * is not in it. The standard's extensions for names, times, lifecycle and people are declared.
 */
import { minutesOfClock } from '../scenario/clock.ts';
import type { EventName, EventRow } from '../record/event-row.ts';

/** The standard transactional lifecycle, as far as it is of use here. */
type Transition = 'start' | 'suspend' | 'resume' | 'complete';

/** What becomes an event of a trace; named by its step, or, without one, by what happened. */
const OF_STEPS: Partial<Record<EventName, Transition>> = {
  begins: 'start',
  'put down': 'suspend',
  resumed: 'resume',
  ends: 'complete',
  'cure begins': 'start',
  'cure ends': 'complete',
};
const OF_PIECES: ReadonlySet<EventName> = new Set([
  'arrives',
  'sent elsewhere',
  'rework',
  'scrap',
  'good',
  'out again',
] satisfies EventName[]);

const EXTENSIONS = [
  ['Concept', 'concept'],
  ['Time', 'time'],
  ['Lifecycle', 'lifecycle'],
  ['Organizational', 'org'],
] as const;

export interface XesAbout {
  name: string;
  /** The day of the first shift, "YYYY-MM-DD": a run itself has none. */
  date: string;
  /** Clock of its start, "HH:MM". */
  start: string;
  seed: string;
  replication: number;
  version: string;
}

export function writeXes(events: readonly EventRow[], about: XesAbout): string {
  const traces = new Map<string, EventRow[]>();
  for (const event of events) {
    if (event.unit === '' || (OF_STEPS[event.event] === undefined && !OF_PIECES.has(event.event))) continue;
    traces.set(event.unit, [...(traces.get(event.unit) ?? []), event]);
  }
  const zero = Date.parse(`${about.date}T00:00:00Z`) + minutesOfClock(about.start) * 60_000;
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    '<log xmlns="http://www.xes-standard.org/" xes.version="1849-2016" xes.features="">',
    ...EXTENSIONS.map(
      ([name, prefix]) =>
        `  <extension name="${name}" prefix="${prefix}" uri="http://www.xes-standard.org/${prefix}.xesext"/>`,
    ),
    '  <global scope="trace">',
    `    ${text('concept:name', '')}`,
    '  </global>',
    '  <global scope="event">',
    `    ${text('concept:name', '')}`,
    `    ${dated(zero)}`,
    `    ${text('lifecycle:transition', 'complete')}`,
    '  </global>',
    '  <classifier name="Step" keys="concept:name"/>',
    '  <classifier name="Step and transition" keys="concept:name lifecycle:transition"/>',
    `  ${text('concept:name', about.name)}`,
    `  ${text('lifecycle:model', 'standard')}`,
    `  ${text('seed', about.seed)}`,
    `  ${whole('replication', about.replication)}`,
    `  ${text('clampwright', about.version)}`,
    ...[...traces].flatMap(([unit, own]) => traceLines(unit, own, zero)),
    '</log>',
    '',
  ].join('\n');
}

function traceLines(unit: string, events: readonly EventRow[], zero: number): string[] {
  const product = events.find((one) => one.product !== '')?.product;
  return [
    '  <trace>',
    `    ${text('concept:name', unit)}`,
    ...(product === undefined ? [] : [`    ${text('product', product)}`]),
    ...events.flatMap((event) => [
      '    <event>',
      `      ${text('concept:name', OF_STEPS[event.event] === undefined ? event.event : event.step)}`,
      `      ${dated(zero + event.time)}`,
      `      ${text('lifecycle:transition', OF_STEPS[event.event] ?? 'complete')}`,
      ...(event.person === '' ? [] : [`      ${text('org:resource', event.person)}`]),
      ...(event.second === '' ? [] : [`      ${text('second', event.second)}`]),
      ...(event.detail === '' ? [] : [`      ${text('detail', event.detail)}`]),
      '    </event>',
    ]),
    '  </trace>',
  ];
}

const text = (key: string, value: string): string =>
  `<string key="${escaped(key)}" value="${escaped(value)}"/>`;
const whole = (key: string, value: number): string => `<int key="${escaped(key)}" value="${value}"/>`;
const dated = (milliseconds: number): string =>
  `<date key="time:timestamp" value="${new Date(milliseconds).toISOString().replace('Z', '+00:00')}"/>`;

const ENTITIES: Record<string, string> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' };

/** Signs that XML 1.0 has no way to write are left out; the others that mean something are spelt. */
const escaped = (value: string): string =>
  Array.from(value)
    .filter((sign) => /[\t\n\r\u0020-\ud7ff\ue000-\ufffd\u{10000}-\u{10ffff}]/u.test(sign))
    .map((sign) => ENTITIES[sign] ?? (/[\t\n\r]/.test(sign) ? `&#${sign.codePointAt(0)};` : sign))
    .join('');
