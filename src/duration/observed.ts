import type { Time } from '../scenario/schema.ts';
import { fixedAt, type AnyCurve } from './curve.ts';

/** The observations themselves, each as likely as the next. */
export function observed(time: Time): AnyCurve | null {
  if (typeof time === 'number' || !('curve' in time) || time.curve !== 'observed') return null;
  const values = Float64Array.from(time.values).sort();
  const first = values[0]!;
  return first === values[values.length - 1] ? fixedAt(first) : { kind: 'list', values };
}
