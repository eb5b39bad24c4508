/** How large a cell may be. The run keeps sets of steps in the bits of one integer: hence thirty. */
import { faultAt, type Fault } from '../reading/fault.ts';
import type { Scenario } from '../schema.ts';

const MOST = { steps: 30, people: 60, gear: 60, products: 60, options: 40 } as const;
const ONE_OF = {
  steps: 'step',
  people: 'person',
  gear: 'kind of gear',
  products: 'product',
  options: 'option',
} as const;

/** Asked before every other rule, so that these may count on small numbers. */
export function limitFaults(scenario: Scenario): Fault[] {
  const faults: Fault[] = [];
  for (const key of Object.keys(MOST) as (keyof typeof MOST)[]) {
    const part = scenario[key];
    if (part === undefined) continue;
    const size = Object.keys(part).length;
    if (size > MOST[key])
      faults.push(
        faultAt([key], `${size} entries`, `at most ${MOST[key]}`, 'put some together, or make two files'),
      );
    if (size === 0 && (key === 'steps' || key === 'people' || key === 'products')) {
      faults.push(
        faultAt(
          [key],
          'an empty group',
          `at least one ${ONE_OF[key]}`,
          key === 'products' ? 'take "products" away: one product is then meant' : `add a ${ONE_OF[key]}`,
        ),
      );
    }
  }
  return faults;
}
