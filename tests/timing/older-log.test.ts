import { describe, expect, it } from 'vitest';
import { joinBooks } from '../../src/book/book.ts';
import type { Entry } from '../../src/book/entry.ts';
import { contentsOfDay, logOfBook, type LogBook } from '../../src/timing/log-book.ts';
import { readOlderLog } from '../../src/timing/older-log.ts';

const forecast = { p10: 17, p50: 19, p90: 21, chance: 0.4 };
const times = [{ step: 'sand', product: null, person: null, minutes: 12.5, repeat: false }];
const LOG: LogBook = {
  format: 1,
  cell: 'Bench',
  days: [
    { date: '2027-03-04', target: 20 },
    { date: '2027-03-05', forecast, target: 20, good: 21, note: 'kits late', times },
    { date: '2027-03-08', good: 18 },
  ],
};
const entriesOf = (log: unknown): Entry[] => {
  const read = readOlderLog(JSON.stringify(log));
  return read.kind === 'older log' ? read.entries : [];
};

describe('a log of the older form', () => {
  it('comes back from the book as it was', () => {
    expect(logOfBook(entriesOf(LOG), 'Bench')).toEqual(LOG);
  });
  it('read twice joins to itself', () => {
    const joined = joinBooks(entriesOf(LOG), entriesOf(LOG));
    expect(joined).toMatchObject({ kind: 'joined' });
    expect(joined.kind === 'joined' && joined.entries).toHaveLength(entriesOf(LOG).length);
  });
  it('a day that cannot be read is said, and hides no other', () => {
    const days = [{ date: '2027-02-30', good: 3 }, { date: '2027-03-08', goood: 3 }, 7, LOG.days[2]];
    const read = readOlderLog(JSON.stringify({ format: 1, days }));
    expect(read).toMatchObject({
      kind: 'older log',
      entries: [{ day: '2027-03-08', content: { good: 18 } }],
    });
    expect(read.kind === 'older log' && read.unread.map((one) => one.slice(0, 22))).toEqual([
      'day 1 (2027-02-30): da',
      'day 2 (2027-03-08): it',
      'day 3 (without a date)',
    ]);
  });
  it('keeps both of a day that stands twice, and the later one holds', () => {
    const twice = { format: 1, days: [LOG.days[2], { date: '2027-03-08', good: 22 }] };
    expect(entriesOf(twice)).toHaveLength(2);
    expect(logOfBook(entriesOf(twice), '').days).toEqual([{ date: '2027-03-08', good: 22 }]);
  });
  it.each(['', 'x', '[]', '{"format":1}', '{"format":1,"name":"a cell","steps":{}}', '{"days":[]}'])(
    '%j is none',
    (text) => expect(readOlderLog(text)).toEqual({ kind: 'other' }),
  );
  it('what is said later of a day holds, and what is not said again stays', () => {
    const later: Entry[] = contentsOfDay({ date: '2027-03-05', good: 22, target: 24 }).map(
      ({ kind, content }, place) => ({
        entry: 1,
        id: `later-${place}`,
        day: '2027-03-05',
        kind,
        at: '2027-03-05T15:00:00Z',
        by: 'clampwright',
        content,
      }),
    );
    const log = logOfBook([...later, ...entriesOf(LOG)], 'Bench');
    expect(log.days[1]).toEqual({ ...LOG.days[1], good: 22, target: 24 });
  });
});
