/** A rule of time as a newcomer would add it: quiet hours, in which a step is not begun. */
export const RULE_FILE = 'src/scenario/step-rules/quiet.ts';
export const RULE_LIST = 'src/scenario/step-rules/list.ts';

export const RULE = `import { z } from '../../zod.ts';
import { clock } from '../schema/clock.ts';
import { stepRule } from './step-rule.ts';

export const quiet = stepRule({
  name: 'quiet',
  schema: z.strictObject({ from: clock, until: clock }).describe('Not begun between these times.'),
  clocks: [
    { below: ['from'], label: 'Quiet from', get: (value) => value.from },
    { below: ['until'], label: 'Quiet until', get: (value) => value.until },
  ],
  wrong: (value, after) =>
    after(value.from) < after(value.until)
      ? null
      : [\`quiet until "\${value.until}"\`, \`after "\${value.from}"\`, 'put the two in order'],
  shuts: (value, after) => [{ after: after(value.from), until: after(value.until) }],
  later: (value, isOver) => (isOver(value.from) ? null : value),
  words: (value, step) => \`No \${step} is begun between \${value.from} and \${value.until}.\`,
});
`;
