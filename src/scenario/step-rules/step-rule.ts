/** A rule of time that a step can have: when it is not begun. */
import type { z } from '../../zod.ts';

/** A stretch in which a step is not begun, minutes from the start; at either end itself it may be. */
export interface Shut {
  after: number;
  /** Infinity: to the end. */
  until: number;
}

/** Minutes from the start of the shift to a clock time. */
export type After = (clock: string) => number;

/** A clock time of the rule: where it stands below the rule's field (`[]`: it is the field), its label. */
export interface RuleClock<Value> {
  below: readonly string[];
  label: string;
  get: (value: Value) => string;
}

export interface StepRule<Name extends string = string, Value = unknown> {
  /** Its field of a step in the file; left out there, the step has no such rule. */
  name: Name;
  /** Shape of the field, and its description. */
  schema: z.ZodType<Value>;
  /** Its clock times: they have to lie in the shift, and each is a field of the editor. */
  clocks: readonly RuleClock<Value>[];
  /** What cannot be meant though its shape is right, in words; null where all is well. */
  wrong: (value: Value, after: After) => readonly [found: string, allowed: string, remedy: string] | null;
  /** When the step is not begun, ascending and apart. */
  shuts: (value: Value, after: After) => Shut[];
  /** What of it is left when the times that `isOver` tells of have passed; null: nothing. */
  later: (value: Value, isOver: (clock: string) => boolean) => Value | null;
  /** For the sheet on the wall, a sentence. */
  words: (value: Value, step: string) => string;
}

/** Nothing of a rule may be left out, and its name stays in its type. */
export const stepRule = <const Name extends string, Value>(
  rule: StepRule<Name, Value>,
): StepRule<Name, Value> => rule;
