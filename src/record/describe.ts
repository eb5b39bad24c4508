/** The list of measures for whoever reads the figures: what stands in rows and JSON under which name. */
import { dayRuleWords } from './day.ts';
import type { ListMeasure, Measure, MeasureUnit } from './measure.ts';
import { LIST_MEASURES, MEASURES } from './measures.ts';

export interface MeasureWords {
  name: string;
  unit: MeasureUnit;
  label: string;
  description: string;
  /** How the shifts of a day combine. */
  overShifts: string;
}

const wordsOf = (
  { name, unit, label, description }: Measure | ListMeasure,
  overShifts: string,
): MeasureWords => ({ name, unit, label, description, overShifts });

/** One number a shift each. */
export const MEASURE_WORDS: readonly MeasureWords[] = MEASURES.map((measure) =>
  wordsOf(measure, dayRuleWords(measure.day)),
);

/** Many numbers a shift each: told shift by shift. */
export const LIST_MEASURE_WORDS: readonly MeasureWords[] = LIST_MEASURES.map((measure) =>
  wordsOf(measure, 'shift by shift'),
);
