/** Every what-if, in the order of the help. One more what-if is one file in each/ and one line here. */
import { also } from './each/also.ts';
import { away } from './each/away.ts';
import { bench } from './each/bench.ts';
import { breaks } from './each/breaks.ts';
import { cure } from './each/cure.ts';
import { gearCount } from './each/gear-count.ts';
import { gearOut } from './each/gear-out.ts';
import { hold } from './each/hold.ts';
import { lastStart } from './each/last-start.ts';
import { late } from './each/late.ts';
import { lateParts } from './each/late-parts.ts';
import { mix } from './each/mix.ts';
import { move } from './each/move.ts';
import { out } from './each/out.ts';
import { overtime } from './each/overtime.ts';
import { person, trainee } from './each/person.ts';
import { rack } from './each/rack.ts';
import { returned } from './each/returned.ts';
import { rework } from './each/rework.ts';
import { rush } from './each/rush.ts';
import { scrap } from './each/scrap.ts';
import { shifts } from './each/shifts.ts';
import { stands } from './each/stands.ts';
import { swap } from './each/swap.ts';
import { target } from './each/target.ts';
import { time } from './each/time.ts';
import type { WhatIf } from './what-if.ts';

export const WHAT_IFS: readonly WhatIf[] = [
  gearCount,
  gearOut,
  bench,
  rack,
  person,
  trainee,
  also,
  stands,
  swap,
  move,
  out,
  late,
  away,
  breaks,
  lateParts,
  rush,
  returned,
  mix,
  hold,
  cure,
  time,
  rework,
  scrap,
  overtime,
  lastStart,
  shifts,
  target,
];

/** How all of them are written. */
export const GRAMMAR =
  'People, posts, gear and products go by their id or name in the file, in any case (a post also by who stands there: sander). “=” stands between a thing and what becomes of it, “:” before how many, “@” before a time of day, “/” before a skill, “+” or “-” before so much more or less; commas between several. A list with commas, or a name with a space, goes in double quotes.';
