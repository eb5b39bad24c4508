import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import type { EventRow } from '../../src/record/event-row.ts';
import { readEvents } from '../../src/timing/events-csv.ts';
import { timesOfEvents } from '../../src/timing/event-times.ts';
import { clampwright, json, scenarioFile } from './program.ts';

const folder = mkdtempSync(join(tmpdir(), 'clampwright-record-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('record', () => {
  it('writes a list of events that its own reader takes in whole, and the JSON holds the same events', () => {
    const { code, out } = clampwright(['record']);
    expect(code).toBe(0);
    const { events, unread } = readEvents(out, '06:00');
    expect(unread).toEqual([]);
    expect(events.length).toBeGreaterThan(500);
    const document = json<{ shifts: EventRow[][] }>(clampwright(['record', '--json']).out);
    expect(events).toEqual(document.shifts.flat());
  });

  it('agrees with the run on how many were good and scrapped', () => {
    for (const replication of [0, 7]) {
      const { events } = readEvents(
        clampwright([
          'record',
          '--replication',
          String(replication),
          '--with',
          '{"gear":{"clamp":{"count":3}}}',
        ]).out,
        '06:00',
      );
      const count = (name: string): number => events.filter(({ event }) => event === name).length;
      const inside = Number(events.findLast(({ event }) => event === 'shift ends')!.detail);
      expect(count('good')).toBeGreaterThan(10);
      expect(count('arrives')).toBe(
        count('good') +
          count('scrap') +
          inside +
          count('sent elsewhere') +
          count('waits outside') -
          count('comes in'),
      );
    }
  });

  it('follows a day of several shifts, names of the file included, each piece arriving once', () => {
    const { out } = clampwright(['record', scenarioFile('door-works')]);
    const { events, unread } = readEvents(out, '07:00');
    expect(unread).toEqual([]);
    const arrived = events.filter(({ event }) => event === 'arrives').map(({ unit }) => unit);
    expect(new Set(arrived).size).toBe(arrived.length);
    expect(arrived).toEqual(expect.arrayContaining(['oak pair 1', 'oak pair 2', 'Harbour order']));
    expect(
      events.filter(({ event }) => event === 'shift begins').map(({ time }) => time / 3_600_000),
    ).toEqual([0, 8.5, 24]);
    expect(Math.max(...events.map(({ time }) => time))).toBeGreaterThan(24 * 3_600_000);
  });

  it('holds the times the run drew: the mean fit of a straight chair is the file’s, allowance included', () => {
    const minutes = Array.from({ length: 12 }, (_, replication) => {
      const { events } = readEvents(
        clampwright(['record', '--replication', String(replication)]).out,
        '06:00',
      );
      return timesOfEvents(events)
        .observations.filter(
          (one) => one.step === 'fit' && one.product === 'straight' && one.person === 'orla',
        )
        .map((one) => one.minutes);
    }).flat();
    const mean = minutes.reduce((sum, one) => sum + one, 0) / minutes.length;
    const error = (14.5 * 1.06 * 0.3) / Math.sqrt(minutes.length);
    expect(minutes.length).toBeGreaterThan(150);
    expect(Math.abs(mean - 14.5 * 1.06)).toBeLessThan(3.3 * error);
  });

  it('goes to a file where one is named', () => {
    const path = join(folder, 'events.csv');
    const { code, out, err } = clampwright(['record', '--save', path]);
    expect([code, out]).toEqual([0, '']);
    expect(err).toMatch(/\d+ events in .*events\.csv/);
    expect(readFileSync(path, 'utf8')).toBe(clampwright(['record']).out);
  });
});
