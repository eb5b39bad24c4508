/**
 * What would change the answer: the inputs it hangs on most, each moved alone through its own uncertainty.
 */
import type { MovedAnswer, Sensitivity } from '../../study/sensitivity/sensitivity.ts';
import { gainOf } from '../../study/verdict.ts';
import { chanceSentence, differenceSentence, makesSentence } from '../../words/sentences.ts';
import { chanceFrom } from '../../words/study-words.ts';
import { counted, inSentence, percent, plain, fixed, justOver } from '../../words/words.ts';
import type { Told } from './told.ts';

/** Inputs named. */
const NAMED = 3;

export type Standing =
  | { kind: 'gain'; gain: NonNullable<Told['gain']> }
  | { kind: 'makes'; target: number | null; asked: number; chance: { low: number; high: number } | null };

/**
 * How a move leaves the answer: as it is, surely another, perhaps another; `open` where it was not decided
 * before.
 */
type Left = 'same' | 'other' | 'perhaps' | 'open';

/**
 * A summary first, then a sentence for each of the inputs that shift the answer most, what hurts it before
 * what helps.
 */
export function hangsSentences(sensitivity: Sensitivity, standing: Standing): string[] {
  const { moves, inputs } = sensitivity;
  if (moves.length === 0) return ['There was nothing in the file to move.'];
  const left = new Map(moves.map((move) => [move, leftBy(move, standing)]));
  const named = namedMoves(moves, left);
  const tried = `${counted(inputs, 'input')} ${inputs === 1 ? 'was' : 'were'} moved, each alone through its own uncertainty, ${counted(sensitivity.count, 'shift')} a move`;
  return [
    `${tried}: ${summaryOf(left, standing)}`,
    ...(named.length === 0 ? [nothingSeen(moves)] : named.map((move) => sentenceOf(move, standing))),
  ];
}

function summaryOf(moves: Map<MovedAnswer, Left>, standing: Standing): string {
  const left = [...moves.values()];
  const answer =
    standing.kind === 'gain'
      ? `on the other side of the ${plain(standing.gain.matters)} units a shift that matter`
      : `on the other side of the ${'asked' in standing ? percent(standing.asked) : ''} asked for`;
  if (left.every((one) => one === 'open'))
    return 'the answer was open before, so none of them could change it.';
  // An input is moved both ways; it counts once, as what the worse of the two does.
  const inputsThat = (which: Left): Set<string> =>
    new Set([...moves].flatMap(([move, is]) => (is === which ? [move.input] : [])));
  const others = inputsThat('other');
  const [other, perhaps] = [
    others.size,
    [...inputsThat('perhaps')].filter((input) => !others.has(input)).length,
  ];
  if (other > 0)
    return `${plain(other)} of them ${other === 1 ? 'puts' : 'put'} the answer ${answer}${perhaps > 0 ? `, ${plain(perhaps)} more may` : ''}.`;
  if (perhaps > 0)
    return `none surely changes the answer, but ${plain(perhaps)} of them may put it ${answer}.`;
  return standing.kind === 'gain' ? `none puts the answer ${answer}.` : `none puts it ${answer}.`;
}

function leftBy(move: MovedAnswer, standing: Standing): Left {
  const before = sideOf(standing, null);
  if (before === 'open') return 'open';
  const after = sideOf(standing, move);
  return after === before ? 'same' : after === 'open' ? 'perhaps' : 'other';
}

function sideOf(standing: Standing, move: MovedAnswer | null): 'over' | 'under' | 'open' {
  if (standing.kind === 'gain') {
    const side = gainOf(move?.answer ?? standing.gain.range, standing.gain.matters);
    return side === 'matters' ? 'over' : side === 'does not' ? 'under' : 'open';
  }
  const chance = move === null ? standing.chance : move.chance;
  if (chance === null) return 'open';
  return chance.low >= standing.asked ? 'over' : chance.high < standing.asked ? 'under' : 'open';
}

/**
 * Those that surely shift the answer, one an input: what makes it another first, then the largest; what hurts
 * before what helps.
 */
function namedMoves(moves: MovedAnswer[], left: Map<MovedAnswer, Left>): MovedAnswer[] {
  const weight = (move: MovedAnswer): number => ({ other: 2, perhaps: 1, same: 0, open: 0 })[left.get(move)!];
  const sure = moves
    .filter(({ shift }) => shift.low > 0 || shift.high < 0)
    .sort(
      (a, b) =>
        weight(b) - weight(a) ||
        Number(a.shift.estimate > 0) - Number(b.shift.estimate > 0) ||
        Math.abs(b.shift.estimate) - Math.abs(a.shift.estimate),
    );
  return sure.filter((move, i) => sure.findIndex((one) => one.input === move.input) === i).slice(0, NAMED);
}

function nothingSeen(moves: MovedAnswer[]): string {
  const most = Math.max(...moves.map(({ shift }) => Math.max(-shift.low, shift.high)));
  return Number.isFinite(most)
    ? `None shifts it by as much as these runs can see (under ${fixed(justOver(most, 1), 1)} units a shift).`
    : 'Too few shifts were run to see a change.';
}

function sentenceOf({ words, answer, chance }: MovedAnswer, standing: Standing): string {
  if (standing.kind === 'gain')
    return `With ${words}: ${inSentence(differenceSentence(standing.gain.subject, answer, { kind: 'units' }, standing.gain.matters))}`;
  if (standing.target === null || chance === null)
    return `With ${words}: ${inSentence(makesSentence(answer))}`;
  return `With ${words}: ${inSentence(chanceSentence(standing.target, chanceFrom(chance)))}`;
}
