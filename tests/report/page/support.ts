/** One brief on the demo, run once on few shifts, and ways to bend its numbers to the edges. */
import { readFileSync } from 'node:fs';
import {
  buildBrief,
  makeBrief,
  type Again,
  type BriefData,
  type BriefQuestion,
} from '../../../src/report/brief.ts';
import { toText } from '../../../src/document/document-text.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import { around, type Interval } from '../../../src/study/intervals/interval.ts';
import type { OneMoreAnswer } from '../../../src/study/clamp-question.ts';
import { verdictOf } from '../../../src/study/verdict.ts';
import { inLineRunner } from '../../../src/work/in-line.ts';

export const chairs = JSON.parse(
  readFileSync(new URL('../../../scenarios/chair-works.json', import.meta.url), 'utf8'),
) as Scenario;
export const again: Again = {
  file: 'chair-works.json',
  version: '1.2.3',
  seed: 'clampwright',
  command: 'clampwright brief chair-works.json --more clamp',
};

const made = new Map<string, Promise<BriefData>>();

/** The same question is run once, whatever asks it. */
export function briefOf(question: BriefQuestion, count = 40): Promise<BriefData> {
  const key = JSON.stringify([question, count]);
  const known =
    made.get(key) ??
    makeBrief(chairs, question, inLineRunner(), {
      asked: { count },
      moved: { first: 20, most: 20 },
      ledger: question.kind === 'one more' && { count: 4 },
    });
  made.set(key, known);
  return known;
}

export const clampBrief = (): Promise<BriefData> => briefOf({ kind: 'one more', gear: 'clamp' });

export const textOf = (
  data: BriefData,
  scenario = chairs,
  more: { title?: string; notes?: string } = {},
): string =>
  toText(buildBrief({ scenario, data, again, ...more }))
    .replace(/\n(?!\n)/g, ' ')
    .replace(/ +/g, ' ');

export const range = (low: number, high: number, count = 200): Interval =>
  around((low + high) / 2, (high - low) / 2, count, 0.95);

/** The clamp question with other gains; the verdict follows from them. */
export function withGains(
  data: BriefData,
  gain: Interval,
  nextGain: Interval,
  change: Partial<OneMoreAnswer> = {},
): BriefData {
  if (data.answer.kind !== 'one more') throw new Error('not the clamp question');
  const { one } = data.answer;
  const pairs = one.study.pairs.map((pair, i) => ({ ...pair, good: i === 0 ? gain : nextGain }));
  return {
    ...data,
    answer: {
      kind: 'one more',
      one: {
        ...one,
        gain,
        nextGain,
        verdict: verdictOf(gain, nextGain, one.matters),
        study: { ...one.study, pairs },
        usual: null,
        ...change,
      },
    },
  };
}
