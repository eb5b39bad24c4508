/** Patches on the small cell that the check refuses, and where it says so. */
import { expect, it } from 'vitest';
import { faultsWith } from '../cells.ts';

/**
 * One patch on the small cell, and where the fault must stand; the first fault is looked at unless said
 * otherwise.
 */
type Case = [title: string, patch: object, path: string, words: RegExp];

export const refuses = (cases: Case[]): void => {
  it.each(cases)('%s', (_title, patch, path, words) => {
    const faults = faultsWith(patch);
    expect(faults.map((fault) => fault.path)).toContain(path);
    expect(faults.find((fault) => fault.path === path)!.text).toMatch(words);
  });
};
