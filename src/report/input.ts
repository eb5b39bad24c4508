/** What a page of the command line is about: the file as it was asked for. */
import type { Remark } from '../scenario/check.ts';
import type { Scenario } from '../scenario/schema.ts';

export interface Input {
  /** As it is to be typed again. */
  file: string;
  /** No file was named: it is the demo shop. */
  demo: boolean;
  scenario: Scenario;
  /** The file as it is, seed included, without the changes: its options are still there. */
  base: Scenario;
  /** Names of the options applied. */
  applied: string[];
  seed: string;
  remarks: Remark[];
}
