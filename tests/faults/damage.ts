/** Damaged files of every kind that is read: all end in an answer or in words. */
import { writeFileSync } from 'node:fs';
import seedrandom from 'seedrandom';
import { readBook } from '../../src/book/book.ts';
import { decodeText } from '../../src/scenario/reading/decode-text.ts';
import { readScenario } from '../../src/scenario/check.ts';
import type { Scenario } from '../../src/scenario/schema.ts';
import { readEvents } from '../../src/timing/events-csv.ts';
import { guessMapping } from '../../src/timing/mapping.ts';
import { readObservations } from '../../src/timing/read-observations.ts';
import { readTable } from '../../src/timing/table.ts';

export interface Damaged {
  files: number;
  refused: number;
  fine: number;
  /** Threw, instead of saying what is wrong. */
  crashed: string[];
  /** Longest time one file took, ms of the processor. */
  longest: number;
}

/** Whether it was read as whole. */
type Reading = (bytes: Uint8Array) => boolean | Promise<boolean>;

const textOf = (bytes: Uint8Array): string | null => {
  const decoded = decodeText(bytes);
  return decoded.kind === 'text' ? decoded.text : null;
};

export const readsScenario: Reading = (bytes) => {
  const text = textOf(bytes);
  return text !== null && readScenario(text).kind === 'fine';
};

export const readsBook: Reading = (bytes) => {
  const { unread, tail } = readBook(bytes);
  return unread.length === 0 && tail === null;
};

export const readsEvents: Reading = (bytes) => {
  const text = textOf(bytes);
  return text !== null && readEvents(text, '06:00').unread.length === 0;
};

export const readsTimes =
  (scenario: Scenario): Reading =>
  (bytes) => {
    const text = textOf(bytes);
    if (text === null) return false;
    const table = readTable(text);
    return readObservations(table, guessMapping(table, scenario), scenario).unread.length === 0;
  };

/** By `merge`, called as a function; what it says of a shard that it does not take is no crash. */
export const mergesShard =
  (path: string, call: (words: string[]) => Promise<number>): Reading =>
  async (bytes) => {
    writeFileSync(path, bytes);
    const code = await call(['merge', path]);
    if (code !== 0 && code !== 1 && code !== 2) throw new Error(`merge ended with ${code}`);
    return code === 0;
  };

const JUNK = [
  'null',
  '{}',
  '[]',
  '-1',
  '1e308',
  '""',
  '"\u202E"',
  'true',
  '0.1',
  '[[[',
  '}',
  '"__proto__"',
  ',',
];

/** Each time some bytes of a sound file are changed, taken away, doubled, or replaced by something else. */
export async function damageFiles(
  reads: Reading,
  sound: readonly Uint8Array[],
  files: number,
  seed: string,
): Promise<Damaged> {
  const random = seedrandom(seed);
  const below = (most: number): number => Math.floor(random() * most);
  const result: Damaged = { files, refused: 0, fine: 0, crashed: [], longest: 0 };
  for (let i = 0; i < files; i++) {
    const bytes = Uint8Array.from(damaged([...sound[i % sound.length]!], below));
    const from = process.cpuUsage();
    try {
      if (await reads(bytes)) result.fine++;
      else result.refused++;
    } catch (error) {
      result.crashed.push(`file ${i}: ${String(error)}`);
    }
    const { user, system } = process.cpuUsage(from);
    result.longest = Math.max(result.longest, (user + system) / 1000);
  }
  return result;
}

function damaged(bytes: number[], below: (most: number) => number): number[] {
  for (let times = 1 + below(3); times > 0; times--) {
    const at = below(bytes.length);
    const length = below(Math.min(40, bytes.length - at));
    const junk = [...new TextEncoder().encode(JUNK[below(JUNK.length)])];
    switch (below(5)) {
      case 0:
        bytes[at] = below(256);
        break;
      case 1:
        bytes.splice(at, length);
        break;
      case 2:
        bytes.splice(at, 0, ...bytes.slice(at, at + length));
        break;
      case 3:
        bytes.splice(at, length, ...junk);
        break;
      default:
        bytes.splice(replaceableAt(bytes, at), length, ...junk);
    }
  }
  return bytes;
}

/** Behind the next colon: a value is replaced whole more often, and gets past the spelling. */
function replaceableAt(bytes: number[], from: number): number {
  const colon = bytes.indexOf(58, from);
  return colon < 0 ? from : colon + 1;
}
