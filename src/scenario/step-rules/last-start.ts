import { clock } from '../schema/clock.ts';
import { stepRule } from './step-rule.ts';

export const lastStart = stepRule({
  name: 'lastStart',
  schema: clock.describe('Not begun after this time (it may begin exactly then).'),
  clocks: [{ below: [], label: 'Not begun after', get: (value) => value }],
  wrong: () => null,
  shuts: (value, after) => [{ after: after(value), until: Infinity }],
  later: (value, isOver) => (isOver(value) ? null : value),
  words: (value, step) => `No ${step} is begun after ${value}.`,
});
