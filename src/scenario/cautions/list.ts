/** Every caution, in the order in which they are printed. A new one is one file and one line here. */
import type { Caution } from './caution.ts';
import { adhesives } from './adhesives.ts';
import { cure } from './cure.ts';
import { dust } from './dust.ts';
import { forecast } from './forecast.ts';
import { hours } from './hours.ts';
import { lifting } from './lifting.ts';
import { longHours } from './long-hours.ts';
import { repetition } from './repetition.ts';
import { vibration } from './vibration.ts';

export const CAUTIONS = [
  cure,
  hours,
  longHours,
  vibration,
  dust,
  adhesives,
  lifting,
  repetition,
  forecast,
] as const satisfies readonly Caution[];
