/** Every form a sentence of the page can take at the edges: nothing is said that the numbers do not hold. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { Scenario } from '../../../src/scenario/schema.ts';
import { buildBrief, crewQuestionOf, makeBrief, type BriefData } from '../../../src/report/brief.ts';
import { answerSentences } from '../../../src/report/crew-words.ts';
import { planCrew } from '../../../src/staffing/plan-crew.ts';
import type { Sensitivity } from '../../../src/study/sensitivity/sensitivity.ts';
import type { CaseSummary } from '../../../src/study/summary.ts';
import { inLineRunner } from '../../../src/work/in-line.ts';
import { again, briefOf, chairs, clampBrief, range, textOf, withGains } from './support.ts';

const headline = (data: BriefData, scenario = chairs): string => {
  const heading = buildBrief({ scenario, data, again }).blocks.find((block) => block.kind === 'heading');
  return heading?.kind === 'heading' ? heading.text : '';
};

const oneOf = (data: BriefData) => {
  if (data.answer.kind !== 'one more') throw new Error('not the clamp question');
  return data.answer.one;
};

/** The first case's target as if so many of the shifts had made it. */
function withChance(data: BriefData, estimate: number, low: number, high: number): BriefData {
  const one = oneOf(data);
  const [base, ...others] = one.study.cases as [CaseSummary, ...CaseSummary[]];
  const target = {
    units: 22,
    chance: {
      estimate,
      low,
      high,
      half: (high - low) / 2,
      luck: (high - low) / 2,
      inputs: 0,
      count: 200,
      confidence: 0.95,
    },
  };
  return {
    ...data,
    answer: {
      kind: 'one more',
      one: { ...one, study: { ...one.study, cases: [{ ...base, target }, ...others] } },
    },
  };
}

const moved = (data: BriefData, moves: Sensitivity['moves']): BriefData => ({
  ...data,
  sensitivity: { ...data.sensitivity!, inputs: 15, count: 100, moves },
});
const move = (
  words: string,
  shift: [number, number],
  answer: [number, number],
): Sensitivity['moves'][number] => ({
  input: words,
  name: words,
  words,
  shift: range(...shift),
  answer: range(...answer),
  chance: null,
});

describe('the heading of the clamp question', () => {
  test('says what it adds, when it pays back, and what holds the cell back then', async () => {
    const text = headline(withGains(await clampBrief(), range(3.2, 3.8), range(0.1, 0.3)));
    expect(text).toMatch(
      /^A third clamp set adds 3\.5 units a shift \(3\.2 to 3\.8\)\. It pays back after \d+ shifts \(\d+ to \d+\)\. Then .+ (holds?|surely adds) /,
    );
  });

  test('never says that it adds anything, or pays back, where its range covers zero', async () => {
    const text = textOf(withGains(await clampBrief(), range(-0.3, 0.7), range(-0.2, 0.2)));
    expect(headline(withGains(await clampBrief(), range(-0.3, 0.7), range(-0.2, 0.2)))).toMatch(
      /cannot tell yet whether a third clamp set adds the 0\.5 units/,
    );
    expect(text).not.toMatch(
      /A third clamp set (adds|removes)|It pays back after|improves|it is worth its price:|And with a third clamp set/,
    );
    expect(text).toMatch(/they may bring in nothing/);
    expect(text).toMatch(/may never pay back/);
  });

  test('says that it was not the constraint where it surely gains less than what matters', async () => {
    const text = headline(withGains(await clampBrief(), range(-0.1, 0.2), range(-0.1, 0.1)));
    expect(text).toMatch(/adds less than the 0\.5 units a shift that matter/);
    expect(text).toMatch(/Clamp sets are not what holds you back/);
    expect(text).not.toMatch(/pays back/);
  });

  test('says that it never pays back where it makes less', async () => {
    const text = textOf(withGains(await clampBrief(), range(-2, -1), range(-0.1, 0.1)));
    expect(text).toMatch(/Extra good units: Fewer, not more/);
    expect(text).toMatch(/It never pays back/);
    expect(headline(withGains(await clampBrief(), range(-2, -1), range(-0.1, 0.1)))).toMatch(
      /loses 1\.5 units a shift \(1\.0 to 2\.0\)/,
    );
  });

  test('says that the sets still hold the cell back where the next gains as well', async () => {
    expect(headline(withGains(await clampBrief(), range(3, 4), range(2, 3)))).toMatch(
      /Even so, clamp sets still hold you back\.$/,
    );
  });

  test('gives no verdict, no payback and no inputs where it was stopped by hand', async () => {
    const data = await clampBrief();
    const one = oneOf(data);
    const stopped: BriefData = {
      ...data,
      staircase: null,
      sensitivity: null,
      ledger: null,
      answer: {
        kind: 'one more',
        one: { ...one, verdict: null, then: null, study: { ...one.study, kind: 'partial', needed: 300 } },
      },
    };
    expect(headline(stopped)).toMatch(
      /^PARTIAL: stopped by hand, so no verdict is given\. So far, after 40 shifts:/,
    );
    expect(textOf(stopped)).toMatch(/Stopped by hand after 40 of 300 shifts/);
    expect(textOf(stopped)).not.toMatch(/pays back|What would change|holds you back/);
    const nothing: BriefData = {
      ...stopped,
      answer: {
        kind: 'one more',
        one: { ...one, verdict: null, then: null, study: { ...one.study, kind: 'partial', count: 0 } },
      },
    };
    expect(headline(nothing)).toMatch(/before a single shift was run; there is nothing to say yet/);
  });

  test('says when the most shifts were run before it was as sure as asked', async () => {
    const data = await clampBrief();
    const one = oneOf(data);
    const capped: BriefData = {
      ...data,
      answer: { kind: 'one more', one: { ...one, study: { ...one.study, capped: true, precision: 0.05 } } },
    };
    expect(textOf(capped)).toMatch(
      /Stopped at the most it may run, .*, not to the 0\.05 asked for: the runs leave/,
    );
  });
});

describe('chances and targets', () => {
  test('are never certain because all or none of the shifts run made it', async () => {
    const data = await clampBrief();
    expect(textOf(withChance(data, 1, 0.98, 1))).toMatch(
      /all 200 shifts made 22; the chance of missing it is under 1 in 50/,
    );
    expect(textOf(withChance(data, 0, 0, 0.02))).toMatch(
      /none of 200 shifts made 22; the chance is under 1 in 50/,
    );
    for (const [estimate, low, high] of [
      [1, 0.98, 1],
      [0, 0, 0.02],
    ] as const)
      expect(textOf(withChance(data, estimate, low, high))).not.toMatch(/ 100%| 0%/);
  });

  test('out of reach are said to be so, as far as averages go and no further', async () => {
    const data = await clampBrief();
    const out = (alwaysSame: boolean): string => textOf({ ...data, reach: { ceiling: 20.04, alwaysSame } });
    expect(out(false)).toMatch(/As it is, 22 is out of reach on average: .* 20\.1 a shift at most/);
    expect(out(true)).toMatch(/As it is, 22 cannot be made: .* 20\.1 at most/);
    expect(textOf({ ...data, reach: { ceiling: 22, alwaysSame: true } })).not.toMatch(
      /out of reach|cannot be made/,
    );
  });
});

describe('what would change the answer', () => {
  const gains: [number, number] = [3.2, 3.8];

  test('names what puts it on the other side first, and says so', async () => {
    const data = withGains(await clampBrief(), range(...gains), range(0.1, 0.3));
    const text = textOf(
      moved(data, [
        move('a slow fitter', [-1.2, -0.8], [2.2, 2.8]),
        move('no cure', [-3.9, -3.1], [-0.1, 0.2]),
      ]),
    );
    expect(text).toMatch(
      /15 inputs were moved, each alone through its own uncertainty, 100 shifts a move: 1 of them puts the answer on the other side of the 0\.5 units/,
    );
    expect(text.indexOf('With no cure')).toBeLessThan(text.indexOf('With a slow fitter'));
    expect(text).toMatch(/With no cure: .*no difference/);
    expect(text).toMatch(/With a slow fitter: a third clamp set adds 2\.5 units a shift \(2\.2 to 2\.8\)/);
  });

  test('says "may" where the range reaches over, and "none" where nothing does', async () => {
    const data = withGains(await clampBrief(), range(...gains), range(0.1, 0.3));
    expect(textOf(moved(data, [move('a slow fitter', [-3.4, -2.4], [0.2, 1])]))).toMatch(
      /none surely changes the answer, but 1 of them may put it on the other side/,
    );
    expect(textOf(moved(data, [move('a slow fitter', [-1, -0.5], [2, 3])]))).toMatch(
      /none puts the answer on the other side/,
    );
  });

  test('names no input whose shift cannot be told from none', async () => {
    const data = withGains(await clampBrief(), range(...gains), range(0.1, 0.3));
    const text = textOf(moved(data, [move('a slow fitter', [-0.2, 0.3], [3.2, 3.9])]));
    expect(text).toMatch(/None shifts it by as much as these runs can see \(under 0\.4 units a shift\)/);
    expect(text).not.toMatch(/With a slow fitter/);
  });

  test('has nothing to change where the answer was open before', async () => {
    const data = withGains(await clampBrief(), range(0.2, 0.9), range(0.1, 0.3));
    expect(textOf(moved(data, [move('a slow fitter', [-0.6, -0.2], [0, 0.3])]))).toMatch(
      /the answer was open before, so none of them could change it/,
    );
  });
});

describe('the other questions', () => {
  test('a single option stands against things as they are and is not called best', async () => {
    const data = await briefOf({ kind: 'options', ids: ['third-set'] });
    expect(headline(data)).toMatch(
      /^A third clamp set adds \d\.\d units a shift \(\d\.\d to \d\.\d\)\. It pays back after/,
    );
    expect(textOf(data)).not.toMatch(/best|beats/);
    expect(textOf(data)).toMatch(/It changes: clamp sets 2 → 3\./);
  });

  test('several options: the first beats the next only where their own difference leaves no doubt', async () => {
    const data = await briefOf({ kind: 'options', ids: ['third-set', 'fourth-set', 'cold-shop'] });
    if (data.answer.kind !== 'options') throw new Error('not options');
    const { answer } = data;
    const bent = (lead: [number, number]): BriefData => {
      const over = [
        { id: 'fourth-set', good: range(-lead[1], -lead[0]) },
        { id: 'cold-shop', good: range(5, 8) },
      ];
      return { ...data, answer: { ...answer, leading: 'third-set', over } };
    };
    expect(headline(bent([-2.4, -1.6]))).toMatch(
      /“A third clamp set” beats “A third and a fourth clamp set” by 2\.0 units a shift \(1\.6 to 2\.4\)/,
    );
    expect(headline(bent([-2.4, 0.2]))).toMatch(
      /“A third clamp set” and “A third and a fourth clamp set” cannot be told apart after 200 shifts/,
    );
  });

  test('options of which none surely gains are said to be just that', async () => {
    const data = await briefOf({ kind: 'options', ids: ['cold-shop', 'late-arrivals'] });
    expect(headline(data)).toMatch(/^None of 2 choices surely adds the 0\.5 units a shift that matter\./);
    expect(textOf(data)).not.toMatch(/It pays back/);
  });

  test('limits name what holds the cell back and what gains most', async () => {
    const data = await briefOf({ kind: 'limits' });
    expect(headline(data)).toMatch(
      /^The number of clamp sets holds you back\. One more clamp set adds \d\.\d units a shift/,
    );
    expect(textOf(data)).toMatch(/one more clamp set \+\d\.\d \(\d\.\d to \d\.\d\) \$1,800/);
  });

  test('limits where nothing surely gains name nothing', async () => {
    const data = await briefOf({ kind: 'limits' });
    if (data.answer.kind !== 'limits') throw new Error('not limits');
    const { each } = data.answer;
    const rows = each.rows.map((row) => ({ ...row, gain: range(-0.2, 0.3) }));
    expect(
      headline({ ...data, answer: { kind: 'limits', each: { ...each, rows, constraint: [] }, usual: null } }),
    ).toMatch(/^Nothing that was tried on its own surely adds the 0\.5 units a shift that matter\./);
  });

  test('a choice that gains as much as matters and costs less goes before a dearer one that gains a little more', async () => {
    const data = await briefOf({ kind: 'options', ids: ['third-set', 'fourth-set', 'cold-shop'] });
    if (data.answer.kind !== 'options') throw new Error('not options');
    const over = [
      { id: 'fourth-set', good: range(-0.3, -0.1) },
      { id: 'cold-shop', good: range(6, 7) },
    ];
    expect(headline({ ...data, answer: { ...data.answer, leading: 'third-set', over } })).toMatch(
      /With “A third and a fourth clamp set” instead, the cell makes 0\.2 more units a shift \(0\.1 to 0\.3\), less than the 0\.5 that matters\. It costs \$1,800 more\.$/,
    );
  });

  test('a crew plan says whether the number is made, what it costs, who stands where, and what would change it', async () => {
    const vary = {
      posts: false,
      order: false,
      changes: 0 as const,
      breaks: false,
      lastStart: false,
      overtime: false,
      rule: false,
    };
    const planned = await planCrew({ scenario: chairs, vary, target: 19 }, inLineRunner(), {
      report: 100,
      oneMore: 0,
      absence: 0,
    });
    const data = await makeBrief(chairs, crewQuestionOf(planned), inLineRunner(), {
      moved: { first: 20, most: 20 },
    });
    const text = textOf(data);
    expect(headline(data)).toBe(answerSentences(planned)[0]);
    expect(text).toMatch(/^Do we make 19 at Chair works, and who stands where\?/);
    expect(text).toMatch(/Who stands where .*Orla fit 06:00/s);
    expect(text).toMatch(/Wages: \$[\d,.]+ a shift/);
    expect(text).toMatch(/What would change the answer .* 15 inputs were moved/s);
    expect(text).not.toMatch(/NaN|Infinity|undefined/);
  });
});

test('a day of several shifts is not told by a chance of their sum', async () => {
  const doors = JSON.parse(
    readFileSync(new URL('../../../scenarios/door-works.json', import.meta.url), 'utf8'),
  ) as Scenario;
  const data = await makeBrief(doors, { kind: 'one more', gear: 'press-bay' }, inLineRunner(), {
    asked: { count: 20 },
    moved: { first: 10, most: 10 },
    ledger: false,
  });
  const text = textOf(data, doors);
  expect(data.staircase).toBeNull();
  expect(text).toMatch(/Picture: Good units a shift: 3 press bays .* on average; 4 press bays/);
  expect(text).toMatch(/Each shift makes its own/);
  expect(text).toMatch(/3 shifts in a row, from the first/);
  expect(text).not.toMatch(/chance of 56|56 due/);
});

test('no page has a number that is none', async () => {
  const endless = { ...range(3, 3), low: -Infinity, high: Infinity, half: Infinity };
  const pages = [
    await clampBrief(),
    await briefOf({ kind: 'limits' }),
    await briefOf({ kind: 'options', ids: ['third-set', 'fourth-set', 'cold-shop'] }),
    withGains(await clampBrief(), range(0, 0), range(0, 0)),
    withGains(await clampBrief(), endless, endless),
  ];
  for (const page of pages) expect(textOf(page)).not.toMatch(/NaN|Infinity|undefined|null|unknown|\[object/);
});
