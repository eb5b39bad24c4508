/** What set a shift apart from the others, in words. */
import { layoutOfShift } from '../../record/layout.ts';
import type { Chosen } from './chosen.ts';
import { clockOfMinutes, minutesOfClock } from '../../scenario/clock.ts';
import type { Apart, Beside, Trait } from '../../study/apart.ts';
import { nameOf, type ResolvedShift } from '../../scenario/resolve.ts';
import { counted, fixed, inSentence, listed, plural } from '../../words/words.ts';

const MOST = 3;

/**
 * "What set it apart: Kofi was not in; fit took 19.8 minutes a piece (17.1 as a rule)." Nothing of a typical
 * one.
 */
export function apartWords(
  apart: readonly Apart[],
  { kind }: Chosen,
  shift: ResolvedShift,
  beside: Beside | null = null,
): string {
  if (kind === 'typical') return '';
  const against = beside === null ? '' : againstWords(kind, beside);
  if (apart.length === 0) return `${against}Nothing by itself set it apart: many small things came together.`;
  return `${against}What set it apart: ${apart
    .slice(0, MOST)
    .map((one) => traitWords(one, shift))
    .join('; ')}.`;
}

/** One of several shifts in a row need not be as bad, or as good, as they are together. */
function againstWords(kind: string, { own, mean }: Beside): string {
  const isAgainst = (kind === 'bad' && own >= mean) || (kind === 'good' && own <= mean);
  return isAgainst
    ? `By itself it made ${own === mean ? 'as many as' : own > mean ? 'more than' : 'fewer than'} it does as a rule (${fixed(mean, 1)}). `
    : `It makes ${fixed(mean, 1)} as a rule. `;
}

/** "about 1.3 pieces fewer go with that as a rule", for whoever wants the figure. */
export const piecesWords = ({ pieces }: Apart): string =>
  `with that go about ${fixed(Math.abs(pieces), 1)} good pieces ${pieces < 0 ? 'fewer' : 'more'} as a rule`;

export function traitWords({ trait, value, mean }: Apart, shift: ResolvedShift): string {
  const usual = (decimals: number): string => `(${fixed(mean, decimals)} as a rule)`;
  switch (trait.kind) {
    case 'not in': {
      const { name, from } = shift.people[trait.person]!;
      if (value >= shift.length - 1) return `${name} was not in`;
      const late = Math.round(value - from);
      return late < 1 ? `${name} was in on time` : `${name} was ${counted(late, 'minute')} late`;
    }
    case 'minutes a piece':
      return `${inSentence(shift.steps[trait.step]!.name)} took ${fixed(value, 1)} minutes a piece ${usual(1)}`;
    case 'sent back':
      return sentBack(trait, value, usual(1), shift);
    case 'scrap':
      return `${counted(value, 'piece')} scrapped ${usual(1)}`;
    case 'arrived':
      return `${counted(value, 'piece')} came in ${usual(1)}`;
    case 'come by':
      return `${counted(trait.pieces, 'piece')} had come in ${value > mean ? 'only ' : ''}by ${clock(shift, value)} (${clock(shift, mean)} as a rule)`;
    case 'gear out':
      return `${inSentence(plural(shift.gear[trait.gear]!.name))} were out of order for ${counted(Math.round(value), 'minute')} ${usual(0)}`;
  }
}

const clock = (shift: ResolvedShift, minutes: number): string =>
  clockOfMinutes(minutesOfClock(shift.start) + Math.floor(minutes + 1e-9));

function sentBack(
  { cause }: Extract<Trait, { kind: 'sent back' }>,
  value: number,
  usual: string,
  shift: ResolvedShift,
): string {
  const { step, to, cause: why } = layoutOfShift(shift).causes[cause]!;
  const names = listed([inSentence(nameOf(shift.steps, to))]);
  return `${value === 0 ? 'none' : counted(value, 'piece')} went back from ${inSentence(nameOf(shift.steps, step))} to ${names}${why === '' ? '' : ` (“${why}”)`} ${usual}`;
}
