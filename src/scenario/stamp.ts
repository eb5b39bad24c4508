/** A short mark of a scenario: another cell has, but for one in four billion, another mark. */
import type { Scenario } from './schema.ts';

/** Of what a plan is made of: the cell on its day, without its opening stock and what changes nothing. */
export function stampOf(scenario: Scenario): string {
  const {
    options: _options,
    calendar: _calendar,
    nextShifts: _next,
    carryOver: _stock,
    holds: _holds,
    about: _about,
    seed: _seed,
    ...cell
  } = scenario;
  return hash(canonical(cell));
}

/** JSON with names in one order, so that a file saved by another program has the same mark. */
function canonical(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(canonical).join()}]`;
  if (typeof value !== 'object' || value === null) return JSON.stringify(value) ?? 'null';
  const entries = Object.entries(value)
    .filter(([, one]) => one !== undefined)
    .sort(([a], [b]) => (a < b ? -1 : 1));
  return `{${entries.map(([key, one]) => `${JSON.stringify(key)}:${canonical(one)}`).join()}}`;
}

/** FNV-1a, 32 bits (Fowler, Noll & Vo; RFC 9923 has its constants; from memory). */
function hash(text: string): string {
  let sum = 0x811c9dc5;
  for (const byte of new TextEncoder().encode(text)) sum = Math.imul(sum ^ byte, 0x01000193);
  return (sum >>> 0).toString(16).padStart(8, '0');
}
