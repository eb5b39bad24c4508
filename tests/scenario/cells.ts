/** A small glue-up cell the tests of the check put something wrong into. */
import { checkScenario, type Fault } from '../../src/scenario/check.ts';
import { mergePatch } from '../../src/scenario/merge-patch.ts';

export const SMALL = {
  format: 1,
  name: 'Small cell',
  products: { chair: { share: 3 }, stool: { share: 1 } },
  steps: {
    fit: { time: { mean: 12, cv: 0.3 } },
    glue: { time: { mean: 8, cv: 0.15 }, whole: true, rack: 4, takes: [{ gear: 'clamp', until: 'unclamp' }] },
    cure: { kind: 'wait', time: 30 },
    unclamp: { time: 4 },
    clean: { time: { quick: 2, usual: 3, slow: 6 }, rack: 3, rework: [{ to: 'glue', percent: 2 }], scrap: 1 },
    repair: { time: 6, aside: true, then: 'clean' },
  },
  gear: { clamp: { count: 2 } },
  people: {
    ada: { covers: ['fit', 'repair'], pay: 20 },
    bo: { covers: ['unclamp', 'glue', 'clean'], pay: 20 },
  },
  shift: {
    start: '06:00',
    end: '14:30',
    breaks: [
      { from: '09:00', minutes: 10 },
      { from: '11:30', minutes: 30 },
    ],
  },
};

/** The small cell with a merge patch applied. */
export const smallWith = (patch: object): unknown => mergePatch(SMALL, patch);

/** The faults the check finds in the small cell with a patch applied; none where it is fine. */
export const faultsWith = (patch: object): Fault[] => faultsOf(smallWith(patch));

export function faultsOf(value: unknown): Fault[] {
  const reading = checkScenario(value);
  return reading.kind === 'fine' ? [] : reading.faults;
}

export const textsWith = (patch: object): string[] => faultsWith(patch).map((fault) => fault.text);

/** What is pointed out; empty where it is refused. */
export function remarksWith(patch: object): string[] {
  const reading = checkScenario(smallWith(patch));
  return reading.kind === 'fine' ? reading.remarks.map((remark) => remark.text) : [];
}
