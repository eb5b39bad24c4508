/** Records of events for other programs: XES against its schema (libxml2), Parquet read by another reader. */
import { readFileSync } from 'node:fs';
import { tableFromIPC } from 'apache-arrow';
import { XmlDocument, XsdValidator, type XmlElement } from 'libxml2-wasm';
import { readParquet } from 'parquet-wasm';
import { describe, expect, test } from 'vitest';
import { bareEvent, type EventRow } from '../../src/record/event-row.ts';
import { recordEvents } from '../../src/record/event-record.ts';
import { resolve } from '../../src/scenario/resolve.ts';
import { shiftsOf } from '../../src/scenario/options.ts';
import type { Scenario } from '../../src/scenario/schema.ts';
import { writeEventColumns } from '../../src/shards/events.ts';
import { writeXes } from '../../src/timing/events-xes.ts';
import { shipped, shop } from '../support/shops.ts';

const schema = XsdValidator.fromDoc(
  XmlDocument.fromBuffer(readFileSync(new URL('xes.xsd', import.meta.url))),
);
const NAMESPACE = { x: 'http://www.xes-standard.org/' };
const about = { name: 'cell', date: '2027-03-08', start: '06:00', seed: 's', replication: 0, version: '0' };

/** The log, held against the schema. */
function logOf(events: readonly EventRow[], more: Partial<typeof about> = {}): XmlDocument {
  const log = XmlDocument.fromString(writeXes(events, { ...about, ...more }));
  schema.validate(log);
  return log;
}
const within = (of: XmlDocument | XmlElement, path: string): XmlElement[] =>
  (of instanceof XmlDocument ? of.root : of).find(path, NAMESPACE) as XmlElement[];
const value = (of: XmlElement, key: string): string | undefined =>
  (of.get(`x:*[@key="${key}"]/@value`, NAMESPACE) as { content: string } | null)?.content;

describe('XES', () => {
  test.each<[string, Scenario]>([
    ['chair-works', shipped('chair-works')],
    ['frame-works', shop('frame-works')],
    ['stair-parts', shop('stair-parts')],
  ])('of %s holds to the schema, a trace a piece, start and complete of each step paired', (_, scenario) => {
    const shifts = shiftsOf(scenario);
    const events = recordEvents(shifts, 3).flat();
    const log = logOf(events, { name: scenario.name, start: shifts[0]!.start });
    const traces = within(log, 'x:trace');
    expect(traces.length).toBe(
      new Set(events.filter(({ unit }) => unit !== '').map(({ unit }) => unit)).size,
    );
    const steps = new Set(resolve(scenario).steps.map(({ id }) => id));
    let paired = 0;
    for (const trace of traces) {
      const open = new Set<string>();
      let last = '';
      for (const event of within(trace, 'x:event')) {
        const [name, transition, time] = ['concept:name', 'lifecycle:transition', 'time:timestamp'].map(
          (key) => value(event, key),
        ) as [string, string, string];
        expect(time >= last).toBe(true);
        last = time;
        if (!steps.has(name)) continue;
        if (transition === 'start') {
          expect(open.has(name)).toBe(false);
          open.add(name);
        } else if (transition === 'complete' && open.delete(name)) paired += 1;
      }
    }
    // Pieces that were in hand or curing when the record begins end without having begun in it.
    const ended = events.filter(({ event }) => event === 'ends' || event === 'cure ends').length;
    expect(paired).toBeLessThanOrEqual(ended);
    expect(paired).toBeGreaterThanOrEqual(ended - shifts[0]!.carryOver.length);
  });

  test('declares the extensions of its keys, names who did it, and dates with a zone', () => {
    const log = logOf([
      { ...bareEvent(90_061_001, 'begins'), unit: '7', product: 'straight', step: 'glue', person: 'tova' },
    ]);
    expect(
      within(log, 'x:extension/@uri').map((uri) => (uri as unknown as { content: string }).content),
    ).toEqual(
      ['concept', 'time', 'lifecycle', 'org'].map((name) => `http://www.xes-standard.org/${name}.xesext`),
    );
    const [event] = within(log, 'x:trace/x:event');
    expect(value(event!, 'org:resource')).toBe('tova');
    expect(value(event!, 'time:timestamp')).toBe('2027-03-09T07:01:01.001+00:00');
    expect(value(event!, 'lifecycle:transition')).toBe('start');
  });

  test('spells signs that mean something in XML, and leaves out those it has no way to write', () => {
    const unit = 'a<b>&"c"\u0001\ud800\t😀';
    const [trace] = within(logOf([{ ...bareEvent(0, 'arrives'), unit }]), 'x:trace');
    expect(value(trace!, 'concept:name')).toBe('a<b>&"c"\t😀');
  });

  test('that breaks the schema is seen by these tests', () => {
    const broken = writeXes([{ ...bareEvent(0, 'good'), unit: '1' }], about);
    for (const [from, to] of [
      ['+00:00"', 'o’clock"'],
      ['key="concept:name"', ''],
      ['<event>', '<happening>'],
      ['scope="trace"', 'scope="all"'],
    ] as const) {
      expect(() => {
        schema.validate(
          XmlDocument.fromString(
            broken
              .replaceAll(from, to)
              .replaceAll('</event>', from === '<event>' ? '</happening>' : '</event>'),
          ),
        );
      }, from).toThrow();
    }
  });
});

test('Events as Parquet are the events, read by arrow-rs', async () => {
  const events = recordEvents(shiftsOf(shop('drawer-fronts')), 0).flat();
  const parts: Uint8Array[] = [];
  await writeEventColumns(events, { version: '0' }, (bytes) => Promise.resolve(void parts.push(bytes)));
  const table = tableFromIPC(readParquet(Buffer.concat(parts)).intoIPCStream());
  expect(table.numRows).toBe(events.length);
  const column = (name: string): unknown[] => [...table.getChild(name)!];
  expect(column('milliseconds')).toEqual(events.map(({ time }) => time));
  expect(column('item')).toEqual(events.map(({ item }) => (item === 0 ? null : item)));
  for (const name of ['event', 'unit', 'product', 'step', 'person', 'second', 'gear', 'detail'] as const)
    expect(column(name)).toEqual(events.map((one) => one[name] || null));
});
