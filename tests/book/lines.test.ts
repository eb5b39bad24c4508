/**
 * A file after a crash: any beginning of what was written, or one with zeros behind (the model of Pillai et
 * al. 2014, "All file systems are not created equal", appends without atomicity; read as an abstract only).
 * JSON Lines as jsonlines.org has them: UTF-8, a JSON value a line, \n at its end.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readBook, writeBook } from '../../src/book/book.ts';
import { byAge, sameEntry, type Entry } from '../../src/book/entry.ts';
import { appendix, splitLines } from '../../src/book/lines.ts';
import { entries } from './generated-entries.ts';
import { holds } from '../support/holds.ts';

const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text);
const glued = (...parts: Uint8Array[]): Uint8Array => Uint8Array.from(parts.flatMap((part) => [...part]));
const sorted = (list: Entry[]): Entry[] => [...list].sort(byAge);

/** The entries whose line, with its line feed, lies within the first `length` bytes. */
function wholeWithin(list: Entry[], length: number): Entry[] {
  let end = 0;
  return list.filter((entry) => (end += bytesOf(writeBook([entry])).length) <= length);
}

describe('every beginning of a file', () => {
  const zeros = [0, 1, 7];
  it('gives exactly the lines that end; the rest is a tail, said and never glued to the next entry', () => {
    holds(
      fc.property(entries(3), entries(2), (written, later) => {
        const added = later.filter((one) => !written.some((other) => other.id === one.id));
        const whole = bytesOf(writeBook(written));
        for (let length = 0; length <= whole.length; length++) {
          for (const count of zeros) {
            const left = glued(whole.subarray(0, length), new Uint8Array(count));
            const kept = wholeWithin(written, length);
            const reading = readBook(left);
            expect(reading.entries).toEqual(sorted(kept));
            expect(reading.unread).toEqual([]);
            const ends = left.length === 0 || left.at(-1) === 10;
            expect(reading.tail === null).toBe(ends);

            const after = readBook(glued(left, appendix(added, left.at(-1) ?? null)));
            const ids = after.entries.map((entry) => entry.id);
            for (const entry of [...kept, ...added]) expect(ids).toContain(entry.id);
            expect(after.tail).toBe(ends || added.length > 0 ? null : reading.tail);
            // A cut-off line that is whole but for its line feed turns out to be that very entry.
            const strange = after.entries.filter(
              (entry) => ![...written, ...added].some((one) => sameEntry(one, entry)),
            );
            expect(strange).toEqual([]);
            expect(after.entries.length + after.unread.length).toBeLessThanOrEqual(
              kept.length + added.length + 1,
            );
          }
        }
      }),
      { numRuns: 8, seed: 1 },
    );
  });

  it('a tail that happens to be whole JSON is still a tail', () => {
    const reading = readBook(bytesOf('{"entry":1}\n{"a":1}'));
    expect(reading.tail).toBe('{"a":1}');
    expect(splitLines(bytesOf('{}\n12')).lines.map((line) => line.text)).toEqual(['{}']);
  });

  it('a tail cut inside of a letter is no fault of reading', () => {
    const cut = bytesOf('{"note":"Ö').slice(0, -1);
    expect(readBook(cut)).toMatchObject({ entries: [], unread: [] });
    expect(readBook(cut).tail).toMatch(/^\{"note":"/);
  });

  it('begins with a line feed where the last byte is none, and only there', () => {
    expect(appendix([{ a: 1 }], null)).toEqual(bytesOf('{"a":1}\n'));
    expect(appendix([{ a: 1 }], 10)).toEqual(bytesOf('{"a":1}\n'));
    expect(appendix([{ a: 1 }], 0)).toEqual(bytesOf('\n{"a":1}\n'));
    expect(appendix([{ a: '1\n2' }], 125)).toEqual(bytesOf('\n{"a":"1\\n2"}\n'));
  });
});

describe('a damaged line', () => {
  it('hides no other, and says where it stands and why', () => {
    holds(
      fc.property(
        entries(5),
        fc.nat(),
        fc.uint8Array({ minLength: 1, maxLength: 6 }),
        (written, at, damage) => {
          const lines = written.map((entry) => bytesOf(writeBook([entry])));
          const broken = glued(
            bytesOf('{"entry":1,"id":'),
            damage.filter((byte) => byte !== 10),
            bytesOf('\n'),
          );
          const place = written.length === 0 ? 0 : at % (written.length + 1);
          const reading = readBook(glued(...lines.slice(0, place), broken, ...lines.slice(place)));
          expect(reading.entries).toEqual(sorted(written));
          expect(reading.unread.map((one) => one.line)).toEqual([place + 1]);
        },
      ),
      { numRuns: 300, seed: 2 },
    );
  });

  it.each([
    ['[1]', /no entry of a book/],
    ['{"entry":2,"id":"a"}', /later version/],
    [line({ day: '2027-02-30' }), /day: write a date as YYYY-MM-DD/],
    [line({ at: '2027-03-05T06:00:00' }), /at: write clock and zone/],
    [line({ content: { good: -1 } }), /good/],
    [line({ kind: 'note', content: {} }), /note/],
    ['{"entry":1,', /damaged or was cut off/],
    ['\0\0\0', /damaged or was cut off/],
  ])('%s', (text, why) => {
    const [unread] = readBook(bytesOf(`${text}\n`)).unread;
    expect(unread?.why).toMatch(why);
  });

  it('may be of a later kind or have fields of a later version: it is read and handed on as it is', () => {
    const text = `${line({ kind: 'weather', content: { rain: 3 }, sky: 'grey' })}\n`;
    const { entries: read, unread } = readBook(bytesOf(text));
    expect(unread).toEqual([]);
    expect(writeBook(read)).toBe(text);
  });

  it('one with the id of another that says something else is told, and the first stays', () => {
    const { entries: read, unread } = readBook(
      bytesOf([line({}), line({}), line({ content: { good: 3 } }), ''].join('\n')),
    );
    expect(read).toHaveLength(1);
    expect(unread).toMatchObject([{ line: 3, why: 'it has the id of line 1 and says something else' }]);
  });

  it('a byte order mark and line ends of another system do no harm', () => {
    expect(readBook(bytesOf(`\uFEFF${line({})}\r\n\r\n${line({ id: 'b' })}\r\n`))).toMatchObject({
      entries: [{ id: 'a' }, { id: 'b' }],
      unread: [],
      tail: null,
    });
  });
});

function line(other: Record<string, unknown>): string {
  return JSON.stringify({
    entry: 1,
    id: 'a',
    day: '2027-03-05',
    kind: 'result',
    at: '2027-03-05T15:00:00.000+01:00',
    by: 'clampwright 0.2.0',
    content: { good: 19 },
    ...other,
  });
}
