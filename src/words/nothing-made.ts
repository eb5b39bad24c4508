/** Why a cell makes nothing, or next to nothing: what can be read off it without another run. */
import { curveOf } from '../duration/time.ts';
import type { ResolvedShift, ResolvedStep } from '../scenario/resolve.ts';
import { duration, listed } from './words.ts';

/** Under so many good units a shift the number is a sign that something is not as it was meant. */
const NEXT_TO_NOTHING = 1;

/**
 * Sentences on what keeps the cell from making anything; empty where it makes a unit a shift or more.
 * @param good units a shift, on average
 */
export function nothingMadeWords(shifts: readonly ResolvedShift[], good: number): string[] {
  const shift = shifts[0]!;
  if (good >= NEXT_TO_NOTHING) return [];
  const whys = [
    ...noPieces(shift),
    ...nobodyThere(shift),
    ...noGear(shift),
    ...(shifts.length === 1 && shift.carryOver.length === 0 ? tooLong(shift) : []),
  ];
  return whys.length > 0
    ? whys
    : [
        'Nothing that stands in the cell says why; Replay shows where the pieces of one shift stand, and why.',
      ];
}

/** Steps that a piece goes through, and not only sometimes. */
const onTheWay = ({ steps }: ResolvedShift): ResolvedStep[] => steps.filter(({ aside }) => !aside);

function noPieces({ intake, carryOver }: ResolvedShift): string[] {
  const none =
    (intake.kind === 'at start' && intake.units === 0) ||
    (intake.kind === 'list' && intake.arrivals.every(({ units }) => units === 0)) ||
    (intake.kind === 'constant' && intake.inside === 0);
  return none && carryOver.length === 0 ? ['No pieces come in.'] : [];
}

function nobodyThere(shift: ResolvedShift): string[] {
  const comes = shift.people.filter(({ chance }) => chance > 0);
  const empty = onTheWay(shift).filter(
    ({ id, kind, people }) =>
      kind === 'hands' &&
      comes.filter(({ cover }) => cover.some(({ steps }) => steps.includes(id))).length < people,
  );
  if (empty.length === 0) return [];
  const alone = empty.every(({ people }) => people === 1);
  const names = listed(empty.map(({ name }) => `“${name}”`));
  return [alone ? `Nobody who comes stands at ${names}.` : `Too few of those who come stand at ${names}.`];
}

function noGear(shift: ResolvedShift): string[] {
  const needed = new Set(
    shift.steps.flatMap(({ uses, takes }) => [...uses, ...takes.map(({ gear }) => gear)]),
  );
  return shift.gear
    .filter(({ id, count }) => needed.has(id) && count === 0)
    .map(({ name }) => `There is no ${name}, and it is needed.`);
}

/** The usual times alone, nobody ever waiting, already fill more than the shift. */
function tooLong(shift: ResolvedShift): string[] {
  const usual = ({ time }: ResolvedStep): number => curveOf(time).typical(time);
  const steps = onTheWay(shift);
  const over = steps.filter((step) => usual(step) >= shift.length);
  const long = `The shift is ${duration(shift.length)} long`;
  if (over.length > 0)
    return over.map((step) => `${long}, and “${step.name}” alone takes ${duration(usual(step))}.`);
  const through = steps.reduce((sum, step) => sum + usual(step), 0);
  return through < shift.length
    ? []
    : [`${long}, and a piece takes ${duration(through)} from the first step to the last if it never waits.`];
}
