/** From what was typed to choices and changed cells, and to the sentence where it cannot be read. */
import { checkScenario } from '../scenario/check.ts';
import { sameJson } from '../scenario/merge-patch.ts';
import { applyChanges, diffPatch } from '../scenario/options.ts';
import { resolve } from '../scenario/resolve.ts';
import type { Scenario } from '../scenario/schema.ts';
import { capitalized } from '../words/words.ts';
import { WHAT_IFS } from './list.ts';
import { NotSo, type Cell, type Group, type Made, type WhatIf } from './what-if.ts';

/** One what-if as it was typed: `{ word: 'cure', given: '+5' }`. */
export interface Typed {
  word: string;
  given: string;
}

export const cellOf = (scenario: Scenario): Cell => ({ scenario, shift: resolve(scenario) });

/** @throws Error where there is no such what-if: the program's own fault. */
export function whatIfOf(word: string): WhatIf {
  const found = WHAT_IFS.find((one) => one.word === word);
  if (found === undefined) throw new Error(`no what-if is called ${word}`);
  return found;
}

/** What was typed, what it takes, what is wrong, what was most likely meant: enough to mend it. */
export class WhatIfWrong extends Error {
  override name = 'WhatIfWrong';
  readonly typed: Typed;
  /** What is wrong alone, as a sentence: for a page, where nothing was typed. */
  readonly why: string;

  constructor(typed: Typed, whatIf: WhatIf, cell: Cell, why: NotSo) {
    const such = whatIf.such(cell);
    const near = why.near === null ? '' : ` Did you mean “${why.near}”?`;
    super(
      `--${typed.word} takes ${whatIf.takes}${such === null ? '' : `, such as ${such}`}; found “${typed.given}”: ${why.message}.${near}`,
    );
    this.typed = typed;
    this.why = `${capitalized(why.message)}.`;
  }
}

/** A choice that is one press away on a page. */
export interface Offered {
  typed: Typed;
  group: Group;
  made: Made;
}

/** What the what-ifs offer for a file; what it would not take, or what changes nothing, is left out. */
export function offered(scenario: Scenario): Offered[] {
  const { options: _options, ...base } = scenario;
  const cell = cellOf(scenario);
  return WHAT_IFS.flatMap((whatIf) =>
    whatIf.offers(cell).flatMap((given): Offered[] => {
      const typed = { word: whatIf.word, given };
      const made = whatIf.read(cell, given);
      const changed = applyChanges(scenario, made.changes);
      if (sameJson(changed, base) || checkScenario(changed).kind === 'wrong') return [];
      return [{ typed, group: whatIf.group, made }];
    }),
  );
}

/** @throws WhatIfWrong */
export function makeChoice(scenario: Scenario, typed: Typed): Made {
  const whatIf = whatIfOf(typed.word);
  const cell = cellOf(scenario);
  try {
    return whatIf.read(cell, typed.given);
  } catch (error) {
    if (error instanceof NotSo) throw new WhatIfWrong(typed, whatIf, cell, error);
    throw error;
  }
}

export type ChoiceMade = { kind: 'made'; made: Made } | { kind: 'refused'; why: string };

/** A choice that is to stand in the file: refused in words where it cannot be read, run or told apart. */
export function choiceMade(scenario: Scenario, typed: Typed): ChoiceMade {
  try {
    const made = makeChoice(scenario, typed);
    const changed = applyChanges(scenario, made.changes);
    const { options: _options, ...base } = scenario;
    if (sameJson(changed, base)) return { kind: 'refused', why: 'That is how it is already.' };
    const reading = checkScenario(changed);
    return reading.kind === 'wrong'
      ? { kind: 'refused', why: reading.faults[0]!.text }
      : { kind: 'made', made };
  } catch (error) {
    if (error instanceof WhatIfWrong) return { kind: 'refused', why: error.why };
    throw error;
  }
}

/**
 * Several what-ifs one after another as one choice, each read on what the ones before have made of the cell.
 * @throws WhatIfWrong
 */
export function makeTogether(scenario: Scenario, typed: Typed[]): Made {
  const { options: _options, ...base } = scenario;
  let changed: Scenario = base;
  const labels: string[] = [];
  let price: number | undefined;
  for (const one of typed) {
    const made = makeChoice(changed, one);
    changed = applyChanges(changed, made.changes);
    labels.push(made.label);
    if (made.price !== undefined) price = (price ?? 0) + made.price;
  }
  return {
    changes: diffPatch(base, changed) as Record<string, unknown>,
    label: labels.join('; '),
    ...(price === undefined ? {} : { price }),
  };
}
