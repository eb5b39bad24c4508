/**
 * A regression test and no proof: the rows of every scenario, shop and option keep their bits. Where a rule
 * of the run or a measure changes on purpose, `UPDATE_CHECKSUMS=1 npx vitest run row-checksums` writes the
 * new sums, and the commit says which changed and why.
 */
import { createHash } from 'node:crypto';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { SCALARS, type ReportLayout } from '../../src/record/report.ts';
import { runJob } from '../../src/record/job.ts';
import { layoutOfShift } from '../../src/record/layout.ts';
import { applyOption, shiftsOf } from '../../src/scenario/options.ts';
import type { Scenario } from '../../src/scenario/schema.ts';
import { SHIPPED, SHOPS, shipped, shop } from '../support/shops.ts';

const REPLICATIONS = 12;
const file = new URL('../results/row-checksums.json', import.meta.url);
type Sums = Record<string, Record<string, string>>;
const stored: Sums = existsSync(file) ? (JSON.parse(readFileSync(file, 'utf8')) as Sums) : {};

const cells: [string, Scenario][] = [
  ...SHIPPED.map((name): [string, Scenario] => [name, shipped(name)]),
  ...SHOPS.map((name): [string, Scenario] => [name, shop(name)]),
].flatMap(([name, scenario]): [string, Scenario][] => [
  [name, scenario],
  ...Object.keys(scenario.options ?? {}).map((option): [string, Scenario] => [
    `${name} ${option}`,
    applyOption(scenario, option),
  ]),
]);

/** Where each measure stands in a row: every scalar by its name, every vector by its own. */
function stretches(layout: ReportLayout): [name: string, from: number, to: number][] {
  const { scalars, ...vectors } = layout.at;
  const begins = [...Object.values(layout.at), layout.size].sort((a, b) => a - b);
  return [
    ...SCALARS.map((name, i): [string, number, number] => [name, scalars + i, scalars + i + 1]),
    ...Object.entries(vectors).map(([name, from]): [string, number, number] => [
      name,
      from,
      begins.find((other) => other > from) ?? layout.size,
    ]),
  ];
}

function sumsOf(scenario: Scenario): Record<string, string> {
  const shifts = shiftsOf(scenario);
  const { rows } = runJob({ shifts, from: 0, count: REPLICATIONS });
  const hashes = new Map<string, ReturnType<typeof createHash>>();
  shifts.forEach((shift, index) => {
    const layout = layoutOfShift(shift);
    for (const [name, from, to] of stretches(layout)) {
      const hash = hashes.get(name) ?? createHash('sha256');
      hashes.set(name, hash);
      for (let r = 0; r < REPLICATIONS; r++) {
        const part = rows[index]!.slice(r * layout.size + from, r * layout.size + to);
        hash.update(new Uint8Array(part.buffer));
      }
    }
  });
  return Object.fromEntries([...hashes].map(([name, hash]) => [name, hash.digest('hex').slice(0, 12)]));
}

describe('the rows of a cell keep their bits', () => {
  if (process.env.UPDATE_CHECKSUMS === '1') {
    const sums = Object.fromEntries(cells.map(([name, scenario]) => [name, sumsOf(scenario)]));
    writeFileSync(file, `${JSON.stringify(sums, null, 1)}\n`);
    Object.assign(stored, sums);
  }

  test.each(cells)('%s', (name, scenario) => {
    expect(sumsOf(scenario)).toEqual(stored[name]);
  });
});
