/**
 * What a time curve of the scenario file has to say for itself. A curve is one file in curves/ that gives all
 * of this, and one line in curves.ts; the check of the file, the run, JSON Schema, the sensitivity, the words
 * and the form fields read it from there. Every member is required, so the compiler names what is missing.
 */
import type { z } from '../zod.ts';
import type { Distribution } from './distribution.ts';

/** @template Shape the time as the file has it. A new curve's is an object with `curve` set to its kind. */
export interface Curve<Kind extends string, Shape> {
  /** Its name in choices, on the command line and in JSON; no other curve has it. */
  readonly kind: Kind;
  /**
   * Said in everyday terms: a page puts its fields first. The fields of the others stand behind "another
   * way", with the quick, usual and slow they come to in front.
   */
  readonly everyday: boolean;
  readonly words: CurveWords<Shape>;
  /**
   * The shape of the time in the file: which entries, of what size. Use `strictObject`, so that exactly one
   * curve takes a time.
   */
  readonly schema: z.ZodType<Shape, Shape>;
  /** What a form asks for; together the fields make the whole time. */
  readonly fields: readonly Field<Shape>[];
  /**
   * Whether a time is meant as this curve, told by its entries alone: also one whose numbers are wrong, as a
   * half-filled form has them.
   */
  is(time: unknown): time is Shape;
  /** What is wrong with a time of the right shape: order, sense. Empty where it can be run. */
  faults(time: Shape): CurveFault[];
  /** What it is drawn from. `time` has no faults. */
  distribution(time: Shape): Distribution;
  /** The one figure people would name for it, minutes: what they gave as usual, or else the mean. */
  typical(time: Shape): number;
  /** The timings it is made of, minutes; of a curve that is not made of timings, none. */
  timings(time: Shape): readonly number[];
  /**
   * The time with `change` made to each of its minutes, and everything else (cv, shape) kept. Times a factor,
   * all of the curve is scaled by it.
   */
  mapMinutes(time: Shape, change: (minutes: number) => number): Shape;
  /**
   * `factor` (over 0) times the spread about the same middle, as far as the file allows; the time itself
   * where the spread is part of the kind of curve.
   */
  spread(time: Shape, factor: number): Shape;
  /** The whole curve so many minutes later (earlier, below 0); null where the result is no such curve. */
  later(time: Shape, minutes: number): Shape | null;
  /** A time of this kind, without faults, that is about like another time. */
  about(like: Likeness): Shape;
}

export interface CurveWords<Shape> {
  /** In a sentence: "Weibull", "always the same". */
  readonly name: string;
  /** In a list of ways to say a time: "mean and spread". */
  readonly choice: string;
  /** The numbers at their shortest, before "min": "8/10/14". Never fails, whatever the numbers. */
  short(time: Shape): string;
}

/** A fault of a time; whoever checks the file puts the place of the time in front. */
export interface CurveFault {
  /** Entries from the time inward; empty: the time as a whole. */
  place: string[];
  found: string;
  allowed: string;
  remedy: string;
}

/** What one curve tells another that is to be about like it; minutes, to a tenth, `cv` from 0. */
export interface Likeness {
  typical: number;
  mean: number;
  cv: number;
  quick: number;
  usual: number;
  slow: number;
}

/** A number in a form, in its unit: `%` shows a share of 1 as 100. */
export interface NumberField<Shape> {
  readonly kind: 'number';
  /** The entry of the time it shows, as faults name it; empty where the time is the number itself. */
  readonly key: string;
  readonly label: string;
  readonly hint: string;
  readonly unit: 'min' | '%' | '';
  readonly least: number;
  readonly most: number;
  /** Of the buttons beside it. */
  readonly step: number;
  get(time: Shape): number;
  set(time: Shape, value: number): Shape;
}

/** A list of minutes in a form. */
export interface ListField<Shape> {
  readonly kind: 'list';
  readonly label: string;
  readonly hint: string;
  get(time: Shape): readonly number[];
  set(time: Shape, values: number[]): Shape;
}

export type Field<Shape> = NumberField<Shape> | ListField<Shape>;

/** Whether `time` is a group whose entry `curve` is `kind`. */
export const isCurve = (time: unknown, kind: string): boolean =>
  typeof time === 'object' && time !== null && 'curve' in time && time.curve === kind;
