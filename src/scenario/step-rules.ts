/** What the rules of time of a step come to: fields of the file, faults, when it is not begun, words. */
import type { z } from '../zod.ts';
import { STEP_RULES } from './step-rules/list.ts';
import type { After, Shut, StepRule } from './step-rules/step-rule.ts';

export type { Shut } from './step-rules/step-rule.ts';

type Rule = (typeof STEP_RULES)[number];
/** The fields, as they stand in a step. */
type Fields = { [R in Rule as R['name']]: z.ZodOptional<R['schema']> };
/** A step as the file has it, as far as rules of time go. */
type Ruled = { readonly [R in Rule as R['name']]?: z.infer<R['schema']> | undefined };

/** The list as rules of anything: what a rule is handed is always its own field. */
const RULES: readonly StepRule[] = STEP_RULES as readonly unknown[] as readonly StepRule[];

export const RULE_NAMES = STEP_RULES.map(({ name }) => name);

export const ruleFields = Object.fromEntries(
  RULES.map(({ name, schema }) => [name, schema.optional()]),
) as unknown as Fields;

interface Given {
  rule: StepRule;
  value: unknown;
}

/** The rules a step has, with what the file says of each. */
export const rulesOf = (step: Ruled): Given[] =>
  RULES.flatMap((rule) => {
    const value = (step as Record<string, unknown>)[rule.name];
    return value === undefined ? [] : [{ rule, value }];
  });

/** When a step is not begun: what its rules say together, ascending, what overlaps as one. */
export function shutsOf(step: Ruled, after: After): Shut[] {
  const all = rulesOf(step).flatMap(({ rule, value }) => rule.shuts(value, after));
  all.sort((a, b) => a.after - b.after);
  const apart: Shut[] = [];
  for (const { after: from, until } of all) {
    const last = apart.at(-1);
    if (last !== undefined && from < last.until) last.until = Math.max(last.until, until);
    else apart.push({ after: from, until });
  }
  return apart;
}

/** The same step without what of its rules is over. */
export function withLaterRules<S extends Ruled>(step: S, isOver: (clock: string) => boolean): S {
  const left: Record<string, unknown> = { ...step };
  for (const { rule, value } of rulesOf(step)) {
    const later = rule.later(value, isOver);
    if (later === null) Reflect.deleteProperty(left, rule.name);
    else left[rule.name] = later;
  }
  return left as S;
}

/** The rules in sentences, for a step of this name. */
export const ruleSentences = (step: Ruled, name: string): string[] =>
  rulesOf(step).map(({ rule, value }) => rule.words(value, name));

/** Fields of the cell's editor: where each clock time stands below the step, and what is asked for. */
export const ruleClocks = (): { place: string[]; label: string }[] =>
  RULES.flatMap(({ name, clocks }) => clocks.map(({ below, label }) => ({ place: [name, ...below], label })));
