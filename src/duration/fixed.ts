import type { Time } from '../scenario/schema.ts';
import { fixedAt, type AnyCurve } from './curve.ts';

/** A plain number: always so many minutes. */
export function fixed(time: Time): AnyCurve | null {
  return typeof time === 'number' ? fixedAt(time) : null;
}
