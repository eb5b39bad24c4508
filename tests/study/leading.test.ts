import { expect, test } from 'vitest';
import { leadingOf, type Choice } from '../../src/study/leading.ts';

const choices: Choice[] = [
  { id: 'third', outlay: 1800 },
  { id: 'fourth', outlay: 3600 },
  { id: 'free', outlay: 0 },
  { id: 'unknown', outlay: null },
];
const gains: Record<string, number> = { third: 3.5, fourth: 3.7, free: 1, unknown: 3.6 };
const gain = (id: string): { estimate: number; low: number; high: number } => ({
  estimate: gains[id]!,
  low: gains[id]! - 1,
  high: gains[id]! + 1,
});
const over =
  (half: number, of: readonly Choice[] = choices) =>
  (id: string, other: string): { estimate: number; low: number; high: number } => {
    if (!of.some((one) => one.id === other)) throw new Error(`${other} was not to be asked about`);
    const estimate = gains[id]! - gains[other]!;
    return { estimate, low: estimate - half, high: estimate + half };
  };

test('of two that cannot be told apart the cheaper is gone for', () => {
  expect(leadingOf(choices, gain, over(0.4), 0.1)).toBe('third');
});

test('so is one that surely comes within what matters', () => {
  expect(leadingOf(choices, gain, over(0.1), 0.5)).toBe('third');
});

test('the dearer one is gone for where it surely makes more by what may matter', () => {
  expect(leadingOf(choices, gain, over(0.1), 0.2)).toBe('fourth');
});

test('where nothing can be told apart the cheapest is gone for, and a price nobody knows is not cheap', () => {
  expect(leadingOf(choices, gain, over(9), 0.5)).toBe('free');
  expect(leadingOf([choices[1]!, choices[3]!], gain, over(9), 0.5)).toBe('fourth');
});

test('of equally cheap ones the one that makes more', () => {
  const same = [choices[1]!, { id: 'third', outlay: 0 }, choices[2]!];
  expect(leadingOf(same, gain, over(9), 0.5)).toBe('third');
});
