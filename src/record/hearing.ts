/** How measures hear facts of their own, beside what the tally counts for all of them. */
import type { Recorder } from '../engine/recorder.ts';
import type { Hears, Kept, Measure } from './measure.ts';
import { MEASURES } from './measures.ts';

type Fact = keyof Recorder;
type Ear<F extends Fact> = { measure: number; hear: NonNullable<Hears<Kept>[F]> };

/** The measures that hear facts, by their places in the table. */
export const HEARING = MEASURES.flatMap(({ heard }: Measure, measure) =>
  heard === null ? [] : [{ measure, heard }],
);

/** Whoever is told a shift and keeps, by measure, what it hears. */
type Told = Recorder & { kept: Kept[] };

/** From now on measures hear what they ask for. A fact that none asks for costs nothing. */
export function letHear(told: Told): void {
  const facts = new Set(HEARING.flatMap(({ heard }) => Object.keys(heard.hears) as Fact[]));
  for (const fact of facts) listenTo(told, fact);
}

function listenTo<F extends Fact>(told: Told, fact: F): void {
  const first = told[fact].bind(told) as (...told: Parameters<Recorder[F]>) => void;
  const ears = HEARING.flatMap(({ measure, heard }): Ear<F>[] => {
    const hear = heard.hears[fact];
    return hear === undefined ? [] : [{ measure, hear }];
  });
  const all = (...facts: Parameters<Recorder[F]>): void => {
    first(...facts);
    for (const { measure, hear } of ears) hear(told.kept[measure]!, ...facts);
  };
  Object.assign(told, { [fact]: all });
}
