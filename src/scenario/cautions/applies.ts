/** To which cells a caution applies, as far as several cautions share it. */
import { isSanding } from '../rules/remarks.ts';
import type { Caution } from './caution.ts';

type Applies = Caution['applies'];

export const always: Applies = () => true;
export const waits: Applies = ({ steps }) => steps.some((step) => step.kind === 'wait');
export const sands: Applies = ({ steps }, scenario) =>
  steps.some(isSanding) || Object.keys(scenario.limits?.vibration ?? {}).length > 0;
