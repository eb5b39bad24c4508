/** What keeps a cell from the most it could make: adds up, keeps to the ceiling, and agrees with a trial. */
import { describe, expect, test } from 'vitest';
import { shiftsOf } from '../../src/scenario/options.ts';
import { fluidCeiling } from '../../src/study/ceilings/fluid-ceiling.ts';
import { caseOf, CAUSES, causesOf, mostOf, putRight, type Cause } from '../../src/study/loss-causes.ts';
import { treadsOf } from '../../src/report/parts/staircase.ts';
import { goodBetween } from '../../src/study/ranges.ts';
import { runStaircase, type StaircaseResult } from '../../src/study/staircase.ts';
import { runStudy } from '../../src/study/study.ts';
import { agrees, lossName, stairSentences } from '../../src/words/loss-words.ts';
import { inLineRunner } from '../../src/work/in-line.ts';
import { shiftsOfSketch } from '../support/event-table.ts';
import { shipped, shop, SHOPS } from '../support/shops.ts';

const shiftOf = (name: (typeof SHOPS)[number] | 'chair-works'): ReturnType<typeof shiftsOf>[number] =>
  shiftsOf(name === 'chair-works' ? shipped(name) : shop(name))[0]!;

const settings = { first: 24, most: 24, precision: Infinity };

describe.each([...SHOPS, 'chair-works'] as const)('the staircase of %s', (name) => {
  let known: Promise<StaircaseResult> | null = null;
  const stairs = (): Promise<StaircaseResult> =>
    (known ??= runStaircase(shiftOf(name), settings, inLineRunner()).then((made) => made!));

  test('leads from the most to what the cell makes, every cause once', async () => {
    const { most, treads, units } = await stairs();
    const sum = treads.reduce((all, { change }) => all + change.estimate, most);
    expect(sum).toBeCloseTo(units.estimate, 6);
    expect(treads.at(-1)!.units).toBeCloseTo(units.estimate, 6);
    for (const { word } of treadsOf(await stairs()).slice(1))
      expect(word).toMatch(/ \(\+?[-−]?\d+\.\d to [-−]?\d+\.\d\)$/);
    expect(treads.flatMap(({ losses }) => losses).sort()).toEqual(
      ['posts', ...causesOf(shiftOf(name))].sort(),
    );
  });

  test('no tread that stands for itself covers nothing, and every one that goes up says why', async () => {
    const result = await stairs();
    const said = stairSentences(result).join(' ');
    const open = result.treads.slice(1).filter(({ change }) => change.low <= 0 && change.high >= 0);
    expect(open.length).toBeLessThanOrEqual(1);
    for (const tread of result.treads.filter(({ change }) => change.low > 0))
      expect(said.toLowerCase()).toContain(`${lossName(tread)}: `.toLowerCase());
  });

  test('what a tread says is what other luck finds when it is tried alone, or the page says what that finds', async () => {
    const result = await stairs();
    const firm = result.treads.slice(1).filter(({ alone }) => alone !== null);
    const other = { ...shiftOf(name), seed: 'a trial of its own' };
    const state = await runStudy(
      {
        cases: [
          caseOf(other, [], 'as it is'),
          ...firm.map(({ losses }, i) => caseOf(other, losses as Cause[], String(i))),
        ],
        pairs: firm.map((_, i) => ({ before: 0, after: i + 1 })),
        settings,
      },
      inLineRunner(),
    );
    const said = stairSentences(result).join(' ');
    for (const [i, tread] of firm.entries()) {
      const trial = goodBetween(state, 0, i + 1);
      // Two estimates of one figure: apart by no more than their errors together, four of them.
      const error = Math.hypot(trial.half, tread.alone!.half) / 2;
      expect(Math.abs(trial.estimate - tread.alone!.estimate)).toBeLessThan(4 * error + 0.05);
      if (!agrees(tread)) expect(said).toContain(`“${lossName(tread)}” put right it makes`);
    }
  });
});

describe('putting a cause right', () => {
  test('takes waiting away and no work: with all of them the ceiling is hardly another', () => {
    for (const name of SHOPS) {
      const shift = shiftOf(name);
      const right = fluidCeiling(putRight(shift, CAUSES), { inHand: false }).good;
      expect(right).toBeLessThan(mostOf(shift) * 1.06);
    }
  });

  test('a cause that is not there is no case', () => {
    const [plain] = shiftsOfSketch({
      steps: { fit: { time: 10 } },
      people: { fay: { covers: ['fit'] } },
      intake: { kind: 'at start', units: 200 },
      shift: { end: '14:00' },
    });
    expect(causesOf(plain!)).toEqual(['opening stock']);
  });

  test('breaks, worked out by hand: an hour of 10-minute pieces with 20 minutes off makes 4, and makes 4 with pieces of 15', () => {
    const [shift] = shiftsOfSketch({
      steps: { fit: { time: 10 } },
      people: { fay: { covers: ['fit'] } },
      intake: { kind: 'at start', units: 100 },
      shift: { start: '06:00', end: '07:00', breaks: [{ from: '06:20', minutes: 20 }] },
    });
    const right = putRight(shift!, ['breaks']).people[0]!;
    expect(right.offs).toEqual([]);
    expect(right.skills.fit!.factor).toBeCloseTo(1.5, 12);
    expect(mostOf(shift!)).toBeCloseTo(4, 9);
  });
});
