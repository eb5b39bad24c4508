/** The inside of the worker that runs a week for its orders. */
import { recordOrders } from '../../src/record/order-record.ts';
import type { OrderRuns } from '../../src/record/order-runs.ts';
import { serve } from '../../src/work/serve.ts';
import { port } from './inside.ts';
import type { OrdersQuestion } from './orders.ts';

serve<OrdersQuestion, OrderRuns>(port, {
  answer: ({ shifts, orders, from, count }) => recordOrders(shifts, orders, { from, count }),
});
