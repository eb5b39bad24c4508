/** What the numbers take for granted, in words: read off the scenario, never written by hand. */
import { isFixed, meanOf } from '../../duration/compile.ts';
import { A_GUESS } from '../../scenario/own/own-cell.ts';
import { clockOfMinutes, minutesOfClock } from '../../scenario/clock.ts';
import { resolve, type ResolvedPerson, type ResolvedShift, resolvePlant } from '../../scenario/resolve.ts';
import type { Scenario } from '../../scenario/schema.ts';
import { counted, inSentence, listed, money, percent, plain, plural, singular } from '../../words/words.ts';
import { YEARS } from './money.ts';

/**
 * A sentence or two a thing: figures, people, hours, parts, cure, money. `pays`: a payback is on the page;
 * `brief`: in fewer words, for a sheet that is full.
 */
export function assumptionsOf(scenario: Scenario, pays: boolean, brief = false): string[] {
  const shift = resolve(scenario);
  const following = scenario.nextShifts?.length ?? 0;
  return [
    ...(scenario.invented === true
      ? ['The shop is invented: its people, times and prices are made up.']
      : []),
    ...(following === 0
      ? []
      : [`${counted(following + 1, 'shift')} in a row, from the first; what follows describes the first.`]),
    peopleWords(shift, brief),
    ...(brief ? [] : [hoursWords(shift)]),
    partsWords(shift),
    ...gearWords(shift),
    timesWords(scenario, shift),
    ...(pays && !brief ? [moneyWords(scenario)] : pays ? [soldWords(scenario)] : []),
  ];
}

function peopleWords({ people }: ResolvedShift, brief: boolean): string {
  const present = people.filter((person) => person.chance > 0);
  const out = people.filter((person) => person.chance === 0);
  const all = present.every((person) => person.chance === 1 && person.lateChance === 0);
  const away = present.flatMap((person) => {
    const minutes = person.offs
      .filter((off) => off.kind === 'away')
      .reduce((sum, off) => sum + off.minutes, 0);
    return minutes === 0 ? [] : [`${person.name} is ${plain(minutes)} min on another line`];
  });
  if (brief && all)
    return `In: ${present.length === 1 ? 'one person' : `${plain(present.length)} people`}, all on time.`;
  const who = present.length === 0 ? 'Nobody is in' : `In: ${listed(present.map(nameAndChance))}`;
  return `${who}${out.length === 0 ? '' : `; out: ${listed(out.map((person) => person.name))}`}${all && present.length > 0 ? '; all come, on time' : ''}${away.length === 0 ? '' : `; ${listed(away)}`}.`;
}

const nameAndChance = ({ name, chance, lateChance }: ResolvedPerson): string => {
  const notes = [
    ...(chance < 1 ? [`comes ${percent(chance)} of days`] : []),
    ...(lateChance > 0 ? [`late ${percent(lateChance)}`] : []),
  ];
  return notes.length === 0 ? name : `${name} (${notes.join(', ')})`;
};

function hoursWords(shift: ResolvedShift): string {
  const at = (minutes: number): string => clockOfMinutes(minutesOfClock(shift.start) + minutes);
  const breaks = new Map<string, string>();
  for (const off of shift.people.flatMap((person) => person.offs))
    if (off.kind === 'break')
      breaks.set(`${off.from} ${off.minutes}`, `${at(off.from)} (${plain(off.minutes)} min)`);
  const sorted = [...breaks].sort((a, b) => parseFloat(a[0]) - parseFloat(b[0])).map(([, words]) => words);
  const overtime =
    shift.overtime.until === 'none'
      ? 'no overtime asked for'
      : `overtime ${shift.overtime.until === 'target' ? 'until what is due is made' : 'until the cell is empty'}, at most ${plain(shift.overtime.cap)} min`;
  const tidy = shift.tidyUp === 0 ? '' : `; no new piece from ${at(shift.length - shift.tidyUp)}`;
  return `${shift.start} to ${at(shift.length)}; breaks ${sorted.length === 0 ? 'none' : listed(sorted)}${tidy}; ${overtime}.`;
}

const unitsOf = (lots: { units: number }[]): number => lots.reduce((sum, one) => sum + one.units, 0);

function partsWords({ intake, carryOver }: ResolvedShift): string {
  const inside = unitsOf(carryOver);
  const late = intake.late > 0 ? `, ${plain(intake.late)} min late` : '';
  const begins =
    inside === 0
      ? 'The cell is empty at the start'
      : `${counted(inside, 'unit')} stand${inside === 1 ? 's' : ''} in the cell at the start`;
  return `${begins}; ${intakeWords(intake)}${late}.`;
}

function intakeWords(intake: ResolvedShift['intake']): string {
  const most = 'units' in intake && intake.units !== null ? `, ${plain(intake.units)} at most` : '';
  switch (intake.kind) {
    case 'at start':
      return `parts for ${plain(intake.units)} come at the start`;
    case 'beat':
      return `parts come every ${plain(intake.every)} min${most}`;
    case 'random':
      return `parts come at random, every ${plain(meanOf(intake.gap))} min on average${most}`;
    case 'constant':
      return `a new one comes for each that leaves, ${plain(intake.inside)} inside`;
    case 'list':
      return `parts for ${plain(unitsOf(intake.arrivals))} come in ${counted(intake.arrivals.length, 'lot')}`;
  }
}

function gearWords({ gear, steps }: ResolvedShift): string[] {
  const owned = gear
    .filter((one) => one.kind === 'gear')
    .map(
      (one) =>
        `${plain(one.count)} ${one.count === 1 ? inSentence(singular(one.name)) : plural(inSentence(one.name))}`,
    );
  const waits = steps
    .filter((step) => step.kind === 'wait')
    .map(
      (step) =>
        `${inSentence(step.name)} ${plain(meanOf(step.time))} min${isFixed(step.time) ? '' : ' on average'}`,
    );
  return owned.length + waits.length === 0
    ? []
    : [`As it is: ${listed([...owned, ...waits])}; nothing else changes.`];
}

function timesWords(scenario: Scenario, shift: ResolvedShift): string {
  const hands = shift.steps.filter((step) => step.kind === 'hands');
  const fromOf = (id: string): string => scenario.steps[id]?.timesFrom?.time?.trim() ?? '';
  const timed = hands.filter(({ id }) => fromOf(id) !== '' && fromOf(id) !== A_GUESS);
  const from =
    scenario.invented === true && timed.length === 0
      ? 'invented'
      : timed.length === 0
        ? 'as put in, not timed at the bench as far as the file says'
        : timed.length === hands.length
          ? 'as timed at the bench'
          : `timed at the bench for ${timed.length} of ${hands.length} steps`;
  const allowance = shift.allowance === 1 ? '' : `, times ${plain(shift.allowance)} as an allowance`;
  // Who took them, where the file says: the first words of a few.
  const told = [...new Set(timed.map(({ id }) => `“${short(fromOf(id))}”`))].slice(0, 2);
  const who = told.length === 0 ? '' : ` (${told.join('; ')})`;
  return `Hands times are ${from}${who}${allowance}.`;
}

const short = (note: string): string => (note.length > 60 ? `${note.slice(0, 59)}…` : note);

/** The one thing about money that a full sheet still says. */
function soldWords(scenario: Scenario): string {
  const { sellsMore } = resolvePlant(scenario).money;
  return sellsMore
    ? 'Every extra good unit can be sold, the file says.'
    : 'Every extra good unit is taken as sold: ask whether it can be.';
}

function moneyWords(scenario: Scenario): string {
  const { currency, margin, sellsMore, shiftsPerYear, discount } = resolvePlant(scenario).money;
  const { target } = resolve(scenario);
  const asks =
    sellsMore || target === null
      ? ''
      : ` (the file does not say that more than the ${plain(target)} due can be sold: ask, as one that stays in the store brings nothing)`;
  const sold =
    margin === null
      ? ''
      : `Every extra good unit is taken as sold${asks} and brings ${money(margin, currency)}, material off; `;
  return `${sold}${plain(shiftsPerYear)} shifts a year, ${plain(YEARS)} years of use, ${plain(discount)}% a year; floor, power and upkeep are not counted.`;
}
