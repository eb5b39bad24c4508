import { describe, expect, it } from 'vitest';
import { writeCsv } from '../../src/document/csv.ts';
import { bareEvent } from '../../src/record/event-row.ts';
import { readEvents, writeEvents } from '../../src/timing/events-csv.ts';

/** What spreadsheets take for a formula, as found by trying (common practice, no source). */
const FORMULAS = ['=1+1', '+1', '-1', '@SUM(1)', '\uFF1D1', ' =1', '\u200E=1', "'=1", '\t=1'];

describe('a text that a spreadsheet would take for a formula', () => {
  it.each(FORMULAS)('%j is guarded in every list, and read back', (text) => {
    expect(writeCsv([[text]])).toMatch(/^"?'/);
    const [, row] = writeEvents([{ ...bareEvent(0, 'arrives'), unit: text }], '06:00').split('\r\n');
    expect(row).toMatch(/^1,06:00:00,arrives,"?'/);
    const { events } = readEvents(
      writeEvents([{ ...bareEvent(0, 'arrives'), unit: text }], '06:00'),
      '06:00',
    );
    expect(events[0]!.unit.trim()).toBe(text.trim());
  });
});
