/** What `npm run faults` runs. */
export { damageScenarios } from './damage.ts';
export { fillDisk, limitFiles } from './full-disk.ts';
export { throwFlags } from './flags.ts';
export { killAdding, killReplacing } from './kills.ts';
export { writeAtOnce } from './parallel.ts';
export { REPLACING } from './writers.ts';
