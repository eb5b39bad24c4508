/** The page as it comes to stand, part by part: what is told early is what is told at the end. */
import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, test } from 'vitest';
import { buildBrief, makeBrief, type BriefData, type BriefQuestion } from '../../../src/report/brief.ts';
import type { Page } from '../../../src/document/document.ts';
import { checkScenario } from '../../../src/scenario/check.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import { inLineRunner } from '../../../src/work/in-line.ts';

const reading = checkScenario(
  JSON.parse(readFileSync(new URL('../../../scenarios/chair-works.json', import.meta.url), 'utf8')),
);
if (reading.kind === 'wrong') throw new Error(reading.faults[0]!.text);
const scenario: Scenario = reading.scenario;
const page = (data: BriefData): Page =>
  buildBrief({
    scenario,
    data,
    again: { file: 'chair-works.json', version: '1', seed: 'clampwright', command: null },
  });
const headings = (of: Page): string[] =>
  of.blocks
    .flatMap((block) => (block.kind === 'columns' ? block.columns.flat() : [block]))
    .flatMap((block) => (block.kind === 'heading' ? [block.text] : []));
const made = async (question: BriefQuestion): Promise<{ parts: BriefData[]; whole: BriefData }> => {
  const parts: BriefData[] = [];
  const whole = await makeBrief(scenario, question, inLineRunner(), {
    asked: { count: 40 },
    moved: { first: 20, most: 20 },
    ledger: false,
    onPart: (part) => parts.push(part),
  });
  return { parts, whole };
};

describe('a brief about one more clamp set', () => {
  let parts: BriefData[];
  let whole: BriefData;
  beforeAll(async () => {
    ({ parts, whole } = await made({ kind: 'one more', gear: 'clamp' }));
  });

  test('tells the answer first, then with it what averages leave out', () => {
    expect(parts.map(({ staircase, sensitivity }) => [staircase === null, sensitivity === null])).toEqual([
      [true, true],
      [false, true],
    ]);
    expect(parts[0]!.answer).toEqual(whole.answer);
    expect(parts[1]!.staircase).toEqual(whole.staircase);
  });

  test('has the same headline at every stage, and at the end the parts that were still to come', () => {
    const [first, second, last] = [...parts, whole].map((data) => headings(page(data)));
    expect(first![0]).toBe(last![0]);
    expect(second![0]).toBe(last![0]);
    expect(first).not.toContain('Why: what averages leave out');
    expect(second).toContain('Why: what averages leave out');
    expect(last).toContain('What would change the answer');
  });
});

test('a brief about options, which has a picture of its own, tells its answer once and then is whole', async () => {
  const { parts, whole } = await made({ kind: 'options', ids: ['third-set'] });
  expect(parts).toHaveLength(1);
  expect(headings(page(parts[0]!))[0]).toBe(headings(page(whole))[0]);
});
