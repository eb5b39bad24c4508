/**
 * `fc.assert` with a seed, always: a property that fails today fails tomorrow, and fast-check's message tells
 * the seed. CLAMPWRIGHT_SEED tries others (`npm run properties`); it is added to the property's own.
 */
import fc from 'fast-check';

const OWN = 20_261_127;
const given = Number(process.env['CLAMPWRIGHT_SEED'] ?? 0);
if (!Number.isInteger(given)) throw new RangeError('CLAMPWRIGHT_SEED has to be a whole number');

const seeded = (property: fc.IRawProperty<unknown>, settings: fc.Parameters<unknown> = {}): unknown =>
  fc.assert(property, { ...settings, seed: ((settings.seed ?? OWN) + given) | 0 });

/** Throws (or gives a promise that does) where the property does not hold. */
export const holds = seeded as unknown as typeof fc.assert;
