/**
 * The invented shops that everything is tried on besides the demo: nine people, two kinds of clamp,
 * products that skip a step, several shifts, full racks, times from 25 timings, a shift over midnight.
 */
import { readFileSync } from 'node:fs';
import { readScenario } from '../../src/scenario/check.ts';
import type { Scenario } from '../../src/scenario/schema.ts';

export const SHOPS = ['stair-parts', 'frame-works', 'drawer-fronts'] as const;
export const SHIPPED = ['chair-works', 'door-works', 'one-step', 'cell-k'] as const;
export type Shop = (typeof SHOPS)[number];

const read = (url: URL): Scenario => {
  const reading = readScenario(readFileSync(url, 'utf8'));
  if (reading.kind === 'wrong') throw new Error(reading.faults.map((fault) => fault.text).join('\n'));
  return reading.scenario;
};

/** One of the shops of the tests. Throws where its file cannot be run. */
export const shop = (name: Shop): Scenario => read(new URL(`../shops/${name}.json`, import.meta.url));

/** One of the scenarios that come with the project. Throws where its file cannot be run. */
export const shipped = (name: (typeof SHIPPED)[number]): Scenario =>
  read(new URL(`../../scenarios/${name}.json`, import.meta.url));
