/** What `npm run faults` runs. */
export { damageFiles, mergesShard, readsBook, readsEvents, readsScenario, readsTimes } from './damage.ts';
export { fillDisk, limitFiles } from './full-disk.ts';
export { throwFlags } from './flags.ts';
export { killAdding, killReplacing, killWriting } from './kills.ts';
export { writeAtOnce } from './parallel.ts';
export { ADDING, addition, REPLACING } from './writers.ts';
export { readScenario } from '../../src/scenario/check.ts';
