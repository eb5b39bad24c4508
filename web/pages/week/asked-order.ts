/** An order that may come this week, as it is asked about before anybody promises it. */
import { checkScenario, type Fault } from '../../../src/scenario/check.ts';
import { ordersOf, type Order } from '../../../src/scenario/calendar.ts';
import { mergePatch } from '../../../src/scenario/merge-patch.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';

export type WithOrders = { kind: 'fine'; scenario: Scenario } | { kind: 'wrong'; faults: Fault[] };

/** The cell with these orders in its calendar besides its own. */
export function withOrders(filed: Scenario, orders: readonly Order[]): WithOrders {
  if (orders.length === 0) return { kind: 'fine', scenario: filed };
  const reading = checkScenario(mergePatch(filed, { calendar: { orders: [...ordersOf(filed), ...orders] } }));
  return reading.kind === 'fine'
    ? { kind: 'fine', scenario: reading.scenario }
    : { kind: 'wrong', faults: reading.faults };
}

/** A name that no order has yet. */
export function nameFor(filed: Scenario, orders: readonly Order[]): string {
  const taken = new Set([...ordersOf(filed), ...orders].map(({ name }) => name));
  for (let number = 1; ; number++) {
    const name = number === 1 ? 'rush order' : `rush order ${number}`;
    if (!taken.has(name)) return name;
  }
}
