/**
 * What a what-if has to say for itself: how it is written in words (`--move bastian=clean@10:30`), what it
 * changes about the file, and what the choice is called. A what-if is one file in each/ and one line in
 * list.ts; the command line, its help, the README's table and the choices of the pages are made of them.
 */
import type { ResolvedShift } from '../scenario/resolve.ts';
import type { Scenario } from '../scenario/schema.ts';

/** A checked file, and its first shift with every default filled in. */
export interface Cell {
  scenario: Scenario;
  shift: ResolvedShift;
}

/** A JSON Merge Patch on the file, as its options have it. */
export type Change = Record<string, unknown>;

/** The choice that a what-if comes to, for one file. */
export interface Made {
  changes: Change;
  /** What the choice is called. Of one file, two different choices never have one label. */
  label: string;
  /** What it costs once; left out where the file does not say. */
  price?: number;
}

export type Group = 'gear and benches' | 'people' | 'parts' | 'times' | 'the shift';

/** A choice that a page offers, as it would be typed behind the word. */
export type Offer = string;

export interface WhatIf {
  /** The word of the command line, its hyphens left out; no other what-if and no other option has it. */
  readonly word: string;
  readonly group: Group;
  /** What follows the word, in capitals for what is to be filled in: "PERSON=POST@TIME". */
  readonly takes: string;
  /** One line: what it asks. */
  readonly says: string;
  /** What could be typed for the demo shop. */
  readonly example: string;
  /** It is about the day that is played, not about a choice in it: every choice of a comparison has it. */
  readonly frames?: true;
  /** What could be typed for this file; null where it has nothing of the kind. */
  such(cell: Cell): string | null;
  /** @throws NotSo where it cannot be read, or names what the file does not have. */
  read(cell: Cell, given: string): Made;
  /** One press each on the pages, the most asked for first. */
  offers(cell: Cell): Offer[];
}

/** Why something typed cannot be had: `problem` is a sentence without its first capital and its stop. */
export class NotSo extends Error {
  override name = 'NotSo';
  /** The name that was most likely meant. */
  readonly near: string | null;

  constructor(problem: string, near: string | null = null) {
    super(problem);
    this.near = near;
  }
}
