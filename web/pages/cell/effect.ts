/**
 * What a change does to the answer: of a value on its way against the cell as it is kept, of the last change
 * against the cell before it.
 */
import { nothingMadeWords } from '../../../src/words/nothing-made.ts';
import { differenceSentence, makesSentence, promisesSentence } from '../../../src/words/sentences.ts';
import { chanceWords } from '../../../src/words/study-words.ts';
import { checkScenario } from '../../../src/scenario/check.ts';
import { shiftsOf } from '../../../src/scenario/options.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import { differenceThatMatters, settingsOf } from '../../../src/study/from-scenario.ts';
import type { StudyRequest } from '../../../src/study/study.ts';
import type { StudySummary } from '../../../src/study/summary.ts';
import type { CellStore } from '../../store/cell-store.ts';
import { played, undoing } from '../../store/history.ts';

export interface Effect {
  /** `try`: not kept yet. `last`: what the last change did. `none`: there is nothing to compare with. */
  kind: 'try' | 'last' | 'none';
  /** Words for the change. */
  say: string;
  before: Scenario | null;
  after: Scenario;
}

/** The cell as it was before the last change; null where there was none, or where it was not fine. */
export function beforeLast(store: CellStore): { say: string; scenario: Scenario } | null {
  const entry = store.history.get().past.at(-1);
  if (entry === undefined) return null;
  const reading = checkScenario(played(store.draft.get(), undoing(entry)).draft);
  return reading.kind === 'fine' ? { say: entry.say, scenario: reading.scenario } : null;
}

export function effectRequest({ before, after }: Effect): StudyRequest {
  const shifts = shiftsOf(after);
  const settings = settingsOf(after);
  if (before === null) return { cases: [{ id: 'after', name: 'As it is', shifts }], pairs: [], settings };
  return {
    cases: [
      { id: 'before', name: 'Before', shifts: shiftsOf(before) },
      { id: 'after', name: 'As it is', shifts },
    ],
    pairs: [{ before: 0, after: 1 }],
    settings,
  };
}

/**
 * "The cell makes 19.9 units a shift on average (19.7 to 20.1). Nine shifts in ten make 18 … The chance of 22
 * is 6% …"
 * Of a cell that makes next to nothing: why.
 */
export function makesWords(study: StudySummary, scenario: Scenario | null): string {
  const one = study.cases.at(-1)!;
  const why = scenario === null ? [] : nothingMadeWords(shiftsOf(scenario), one.good.estimate);
  if (why.length > 0) return `${makesSentence(one.good)} ${why.join(' ')}`;
  return [makesSentence(one.good), promisesSentence(one.spread, one.shiftsInARow), chanceWords(one) ?? '']
    .filter((part) => part !== '')
    .join(' ');
}

export function differenceWords(study: StudySummary, effect: Effect): string {
  const pair = study.pairs[0];
  // A new name, for example: no shift came out differently.
  if (
    pair !== undefined &&
    pair.good.estimate === 0 &&
    study.cases[0]!.good.estimate === study.cases[1]!.good.estimate
  )
    return 'the answer stays as it is.';
  return pair === undefined
    ? ''
    : differenceSentence(
        { kind: 'thing', words: 'it' },
        pair.good,
        { kind: 'units' },
        differenceThatMatters(effect.after),
      );
}
