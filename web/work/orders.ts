/** When orders of a week are out, run in a worker, a stretch of weeks at a time. */
import {
  joinOrderRuns,
  type OrderAsked,
  type OrderRuns,
  type RunOrders,
} from '../../src/record/order-runs.ts';
import type { ResolvedShift } from '../../src/scenario/resolve.ts';
import { pool, type Pool } from '../../src/work/pool.ts';
import { sayLost } from './lost.ts';
import Maker from './orders-worker.ts?worker';
import { workers } from './worker.ts';

export interface OrdersQuestion {
  shifts: ResolvedShift[];
  orders: readonly OrderAsked[];
  from: number;
  count: number;
}

/** Weeks between two signs of life, and two chances to stop. */
const STRETCH = 25;
const SILENCE = 60_000;
let shared: Pool<OrdersQuestion, OrderRuns, never> | null = null;

export const runOrders: RunOrders = async (shifts, orders, { from, count }, signal) => {
  shared ??= pool({
    transport: workers(() => new Maker()),
    width: 1,
    silence: SILENCE,
    tries: 2,
    lost: sayLost,
  });
  const asked = orders.map(({ name, units }) => ({ name, units }));
  const stretches: OrderRuns[] = [];
  for (let done = 0; done < count; done += STRETCH) {
    const next = Math.min(STRETCH, count - done);
    stretches.push(
      await shared.ask(
        () => ({ shifts, orders: asked, from: from + done, count: next }),
        signal === undefined ? {} : { signal },
      ),
    );
  }
  return joinOrderRuns(stretches);
};
