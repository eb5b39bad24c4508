import { describe, expect, test } from 'vitest';
import { buildBrief, picturesOf } from '../../../src/report/brief.ts';
import { treadsOf } from '../../../src/report/parts/staircase.ts';
import { again, chairs, clampBrief } from './support.ts';

describe('the staircase of the clamp question', () => {
  test('adds up: the most there could be and all changes are what the cell makes', async () => {
    const { staircase, answer } = await clampBrief();
    const { most, treads, units } = staircase!;
    expect(treads.reduce((sum, { change }) => sum + change.estimate, most)).toBeCloseTo(units.estimate, 9);
    if (answer.kind !== 'one more') throw new Error('not the clamp question');
    expect(units.estimate).toBeCloseTo(answer.one.study.cases[0]!.good.estimate, 9);
  });

  test('adds up as it is printed, by hand and to the last digit', async () => {
    const { staircase } = await clampBrief();
    const [, svg] = [
      0,
      picturesOf(buildBrief({ scenario: chairs, data: await clampBrief(), again })).find(
        ({ file }) => file === 'staircase.svg',
      )!.svg,
    ];
    const printed = [...svg.matchAll(/<text [^>]*>([-−+]?\d+\.\d)<\/text>/g)].map((found) =>
      Number(found[1]!.replace('−', '-')),
    );
    const signs = [...svg.matchAll(/<text [^>]*>([-−+]\d+\.\d|0\.0)<\/text>/g)].map((found) =>
      Number(found[1]!.replace('−', '-')),
    );
    const levels = treadsOf(staircase!).map(({ value }) => value);
    for (const level of levels) expect(printed).toContain(level);
    // The last sign is the third clamp set's, which leads away from the stairs.
    expect(signs).toHaveLength(staircase!.treads.length + 1);
    expect(signs.slice(0, -1).reduce((sum, one) => sum + one, levels[0]!)).toBeCloseTo(levels.at(-1)!, 9);
  });

  test('ends with where the question leads, by the gain that the answer names', async () => {
    const data = await clampBrief();
    const page = buildBrief({ scenario: chairs, data, again });
    const { svg } = picturesOf(page)[0]!;
    if (data.answer.kind !== 'one more') throw new Error('not the clamp question');
    expect(svg).toContain('>with a third');
    expect(svg).toContain(`>+${data.answer.one.gain.estimate.toFixed(1)}<`);
  });
});
