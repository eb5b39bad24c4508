/** The ledger of what can be done, by hand on a cell with fixed times. */
import { describe, expect, test } from 'vitest';
import type { Input } from '../../src/report/input.ts';
import { ledgerPage } from '../../src/report/pages/ledger-page.ts';
import { doFirst } from '../../src/report/parts/first-then.ts';
import { usualDays } from '../../src/scenario/changing/usual-days.ts';
import { checkScenario } from '../../src/scenario/check.ts';
import { shiftsOf } from '../../src/scenario/options.ts';
import { resolvePlant } from '../../src/scenario/resolve.ts';
import type { Scenario } from '../../src/scenario/schema.ts';
import { fixesOf } from '../../src/study/fixes.ts';
import { ledgerOf, netOf, type Ledger } from '../../src/study/ledger.ts';
import { inLineRunner } from '../../src/work/in-line.ts';
import { Rerun, scalar, sum } from '../support/run-cell.ts';
import { shipped, shop, SHOPS } from '../support/shops.ts';

const runner = inLineRunner();

/**
 * Ana saws 60 minutes a piece, Bo checks for one, and could saw too; there are two saws. Eight pieces a shift
 * by Ana, eight more by Bo once he helps. Nothing else gains: a third saw has nobody.
 */
const cell = (): Scenario => {
  const scenario: unknown = {
    format: 1,
    name: 'two saws',
    shift: { start: '06:00', end: '14:00' },
    steps: { saw: { time: 60, benches: 2, whole: true }, check: { time: 0 } },
    gear: { clamp: { name: 'clamp set', count: 1, price: 500 } },
    people: {
      ana: { name: 'Ana', covers: ['saw'], pay: 20 },
      bo: { name: 'Bo', covers: ['check'], skills: { check: 3, saw: 3 }, pay: 20 },
    },
    intake: { kind: 'at start', units: 60 },
    money: { margin: 10, benchPrice: 400 },
  };
  const reading = checkScenario(scenario);
  if (reading.kind === 'wrong') throw new Error(reading.faults.map(({ text }) => text).join('\n'));
  return reading.scenario;
};

const known = async (): Promise<Ledger> =>
  (await ledgerOf(cell(), runner, { count: 3, settings: { grain: 0 } }))!;

test('what is free and gains most is done first, and what is bought is judged after it', async () => {
  const ledger = await known();
  expect(ledger.first).toHaveLength(1);
  expect(ledger.first[0]).toMatch(/^post-bo-saw-(first|last)$/);
  // Bo saws eight a shift beside Ana, for no more wages: 80 a shift at 10 each.
  expect(ledger.together!.good.estimate).toBe(8);
  expect(netOf(cell(), ledger.together!)!.estimate).toBeCloseTo(80, 9);
  const bench = ledger.rows.find(({ id }) => id === 'bench-saw')!;
  expect([bench.price, bench.alone.good.estimate, bench.after!.good.estimate]).toEqual([400, 0, 0]);
  // A second Ana is worth eight pieces alone; once Bo saws, both saws are taken.
  const ana = ledger.rows.find(({ id }) => id === 'person-ana')!;
  expect([ana.alone.good.estimate, ana.after!.good.estimate]).toEqual([8, 0]);
  // Eight pieces at 10 for eight hours at 20: it costs more than it brings.
  expect(netOf(cell(), ana.alone)!.estimate).toBeCloseTo(80 - 160, 9);
  const says = doFirst(cell(), ledger).join('\n');
  expect(says).toMatch(
    /^First do, for nothing: Bo .*“saw”.*: \+8 units a shift, \$80 a shift once wages are paid\./,
  );
  expect(says).toMatch(/Then buy: nothing with a price in the file surely pays\./);
  expect(says).toMatch(
    /Do not buy .*one more bench for “saw”.*: it does not pay, or gains less than matters\./,
  );
});

test('overtime tells what the next piece costs at each cap, and where it stops paying', async () => {
  const due: Scenario = { ...cell(), shift: { ...cell().shift, target: 60 } };
  const only = fixesOf(due).filter(({ group }) => group === 'overtime');
  const ledger = (await ledgerOf(
    due,
    runner,
    { count: 3, settings: { grain: 0 } },
    undefined,
    undefined,
    only,
  ))!;
  // A piece takes an hour, so a quarter and half an hour bring none. In the hour Ana saws one more, at 30 for
  // her alone, where it brings 10.
  expect(doFirst(due, ledger).at(-1)).toMatch(
    /^Overtime: up to 15 min no more; up to 30 min no more; up to 60 min 1\.0 more at \$[3-6]\d\.\d\d each, where a piece brings \$10: so it does not pay, on average\.$/,
  );
});

describe.each([
  ['chair-works', shipped('chair-works')] as const,
  ...SHOPS.map((name) => [name, shop(name)] as const),
])('%s', (_name, scenario) => {
  test('every fix is a file the check lets pass, under a name of its own', () => {
    const fixes = fixesOf(scenario);
    const names = fixes.map(({ name }) => name);
    expect(names.filter((name, i) => names.indexOf(name) !== i)).toEqual([]);
    for (const { id, apply } of fixes) {
      const changed = apply(scenario)!;
      const reading = checkScenario(changed);
      expect(reading.kind === 'wrong' ? [id, ...reading.faults.map(({ text }) => text)] : []).toEqual([]);
      expect(shiftsOf(changed)).not.toEqual(shiftsOf(scenario));
    }
  });
});

describe.each([['chair-works', 'gear-clamp'] as const, ['door-works', 'gear-press-bay'] as const])(
  'the ledger of %s',
  (name, gear) => {
    test('is what its shifts, run one by one, come to by hand', async () => {
      const scenario = shipped(name);
      const count = 5;
      const asked = { count, settings: { grain: 0 } };
      const fixes = fixesOf(scenario).filter(({ id, group }) => id === gear || group === 'overtime');
      const ledger = (await ledgerOf(scenario, runner, asked, undefined, undefined, fixes))!;
      const base = byHand(scenario, count);
      const { margin, currency } = resolvePlant(scenario).money;
      const units = new Map<string, { good: number; cost: number }>();
      for (const { id, apply } of fixes) {
        const { good, cost } = byHand(apply(scenario)!, count);
        units.set(id, { good: good - base.good, cost: cost - base.cost });
        const { alone } = ledger.rows.find((row) => row.id === id)!;
        expect(alone.good.estimate).toBeCloseTo(good - base.good, 9);
        expect(alone.cost.estimate).toBeCloseTo(cost - base.cost, 6);
      }
      const page = ledgerPage({ input: inputOf(scenario, name), ledger, cautions: [], repeat });
      const rows = page.blocks.flatMap((block) => (block.kind === 'table' ? block.rows : []));
      for (const { id, name: label } of fixes) {
        const { good, cost } = units.get(id)!;
        const [, printed, net] = rows.find((row) => row[0] === label)!;
        const sign = good > 0 ? '+' : good < -0.05 ? '−' : '';
        expect(printed!.split(' ')[0]!.replace('−0.0', '0.0')).toBe(`${sign}${Math.abs(good).toFixed(1)}`);
        // Down to the dollar, never in the favor of what is to be bought.
        const worth = Math.floor(good * margin! - cost + 1e-7);
        const digits = Math.abs(worth).toLocaleString('en-US');
        expect(net!.split(' ')[0]).toBe(`${worth < 0 ? '−' : ''}${currency}${digits}`);
      }
      // Every quarter of an hour more, from the one before: what its pieces cost each.
      const [first, second] = ['overtime-15', 'overtime-30'].map((id) => units.get(id)!);
      const more = second!.good - first!.good;
      const each = `$${Math.max(0, (second!.cost - first!.cost) / more).toFixed(2)} each`;
      const says = doFirst(scenario, ledger).at(-1)!;
      expect(says).toContain(more < 0.05 ? 'up to 30 min no more' : `${more.toFixed(1)} more at ${each}`);
    });
  },
);

const repeat = { command: ['clampwright', 'ledger'], count: 4 };
const inputOf = (scenario: Scenario, file: string): Input => ({
  scenario,
  base: scenario,
  file,
  demo: false,
  seed: 'x',
  applied: [],
  remarks: [],
});

/** Good units and wages a shift that counts, on usual days, by adding up what each single shift says. */
function byHand(scenario: Scenario, count: number): { good: number; cost: number } {
  const days = usualDays(scenario);
  const rerun = new Rerun(shiftsOf(days.scenario));
  const shifts = Array.from({ length: count }, (_, i) => rerun.rows(i).slice(days.warmUp)).flat();
  const mean = (name: 'good' | 'cost'): number =>
    sum(shifts.map((row) => scalar(row, name))) / (count * days.counted);
  return { good: mean('good'), cost: mean('cost') };
}
