/** Entries that several curves have: their schema, their limits and their form field. */
import { z } from '../zod.ts';
import type { NumberField } from './curve.ts';

/** Sixty-nine days: longer than anything a shift could wait for. */
const MOST_MINUTES = 100_000;
/** Least minutes a form offers where the file wants more than 0: 60 milliseconds. */
const LEAST_OFFERED = 0.001;

export const minutes = z.number().min(0).max(MOST_MINUTES);
export const positiveMinutes = z.number().gt(0).max(MOST_MINUTES);

/**
 * Least coefficient of variation of a curve that varies: 3.6 seconds in an hour. Far below it 1 + cv^2 is 1
 * and the curve has no numbers any more.
 */
export const LEAST_CV = 0.001;
export const MOST_CV = 5;

/** A cv moved by some reckoning, back within what the file takes; 0 stays 0. */
export const withinCv = (cv: number): number => (cv === 0 ? 0 : Math.min(MOST_CV, Math.max(LEAST_CV, cv)));

/** A cv to two digits, at least 1 %: what a form starts from. */
export const roundCv = (cv: number): number => Math.min(MOST_CV, Math.max(0.01, Math.round(cv * 100) / 100));

/** Minutes a form starts from where the file wants more than 0. */
export const positive = (minutes: number): number => Math.max(0.1, minutes);

/** To a tenth of a minute, up or down; noise in the last digits moves nothing. */
export const tenthUp = (minutes: number): number => Math.ceil(minutes * 10 - 1e-6) / 10;
export const tenthDown = (minutes: number): number => Math.floor(minutes * 10 + 1e-6) / 10;

type Numbers<Key extends string> = { [K in Key]: number };

export const minutesField = <Key extends string, Shape extends Numbers<Key>>(
  key: Key,
  label: string,
  { least = 0, hint = '' }: { least?: 0 | 'over 0'; hint?: string } = {},
): NumberField<Shape> => ({
  kind: 'number',
  key,
  label,
  hint,
  unit: 'min',
  least: least === 0 ? 0 : LEAST_OFFERED,
  most: MOST_MINUTES,
  step: 0.5,
  get: (time) => time[key],
  set: (time, value) => ({ ...time, [key]: millionths(value) }),
});

/** A plain number, without a unit. */
export const numberField = <Key extends string, Shape extends Numbers<Key>>(
  key: Key,
  label: string,
  least: number,
  most: number,
): NumberField<Shape> => ({
  kind: 'number',
  key,
  label,
  hint: '',
  unit: '',
  least,
  most,
  step: 0.5,
  get: (time) => time[key],
  set: (time, value) => ({ ...time, [key]: millionths(value) }),
});

/** The coefficient of variation, in per cent. */
export const cvField = <Shape extends { cv: number }>(least: 0 | typeof LEAST_CV): NumberField<Shape> => ({
  kind: 'number',
  key: 'cv',
  label: 'Spread (standard deviation over mean)',
  hint: '',
  unit: '%',
  least: least * 100,
  most: MOST_CV * 100,
  step: 1,
  get: (time) => time.cv * 100,
  set: (time, value) => ({ ...time, cv: millionths(value / 100) }),
});

/** What is typed has no more digits; what comes of dividing by 100 has noise behind them. */
const millionths = (value: number): number => Math.round(value * 1e6) / 1e6;
