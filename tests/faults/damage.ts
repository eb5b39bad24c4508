/** Damaged scenario files and junk on the command line: all end in an answer or in words. */
import seedrandom from 'seedrandom';
import { readScenario } from '../../src/scenario/check.ts';
import { decodeText } from '../../src/scenario/reading/decode-text.ts';

export interface Damaged {
  files: number;
  refused: number;
  fine: number;
  /** Threw, instead of saying what is wrong. */
  crashed: string[];
  /** Longest time one file took, ms. */
  longest: number;
}

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
export function damageScenarios(sound: readonly Uint8Array[], files: number, seed: string): Damaged {
  const random = seedrandom(seed);
  const below = (most: number): number => Math.floor(random() * most);
  const result: Damaged = { files, refused: 0, fine: 0, crashed: [], longest: 0 };
  for (let i = 0; i < files; i++) {
    const bytes = damaged([...sound[i % sound.length]!], below);
    const from = performance.now();
    try {
      const decoded = decodeText(Uint8Array.from(bytes));
      const fine = decoded.kind === 'text' && readScenario(decoded.text).kind === 'fine';
      if (fine) result.fine++;
      else result.refused++;
    } catch (error) {
      result.crashed.push(`file ${i}: ${String(error)}`);
    }
    result.longest = Math.max(result.longest, performance.now() - from);
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
