/** From a tally to the flat row of its shift. */
import { AWAY, GONE, NOT_IN, ON_BREAK, workingAt } from '../engine/recorder.ts';
import { emptyPay, payFor, type PaidDay } from '../money/pay.ts';
import { scalarAt, type Scalar } from './report.ts';
import type { Tally } from './tally.ts';

const MINUTE = 60_000;
const pay = emptyPay();
const day: PaidDay = { within: 0, elsewhere: 0, after: 0 };

/** Writes the row of the tallied shift into `rows` from `offset` on. */
export function writeRow(tally: Tally, rows: Float64Array, offset: number): void {
  const { layout, cell } = tally;
  const { at } = layout;
  const steps = cell.steps.count;
  const set = (name: Scalar, value: number): void => {
    rows[offset + scalarAt(layout, name)] = value;
  };
  const copy = (from: Float64Array, to: number, scale: number): void => {
    for (let i = 0; i < from.length; i++) rows[offset + to + i] = from[i]! * scale;
  };
  const { goods, closed } = tally;
  set('arrived', tally.arrived);
  set('diverted', tally.diverted);
  set('outside', tally.outside);
  set('inside', tally.inside);
  set('good', goods);
  set('scrap', tally.scrapped);
  set('reworked', tally.reworked);
  set('firstPassYield', goods + tally.scrapped > 0 ? tally.firstPass / (goods + tally.scrapped) : NaN);
  set('leadMean', goods > 0 ? tally.leads / goods / MINUTE : NaN);
  set('flowMean', goods > 0 ? tally.flows / goods / MINUTE : NaN);
  set('targetMet', cell.target < 0 ? NaN : Number(goods >= cell.target));
  set('targetAt', tally.targetAt / MINUTE);
  set('length', closed / MINUTE);
  set('racksSent', tally.racks);
  set('rackFill', tally.racks > 0 ? tally.fills / tally.racks / MINUTE : NaN);
  set(
    'rackWait',
    tally.racks > 0 ? tally.rackWaits / (tally.racks * (cell.shift.outRack?.size ?? 1)) / MINUTE : NaN,
  );
  set('placesChanged', tally.places);
  set('breakLapsed', tally.lapsed / MINUTE);
  set('outsideMean', tally.outsideArea / closed);
  set('outsideMost', tally.outsideMost);
  copy(tally.goodByHour, at.goodByHour, 1);
  copy(tally.byCause, at.rework, 1);
  copy(tally.lineArea, at.lineMean, 1 / closed);
  copy(tally.lineMost, at.lineMost, 1);
  writeBins(tally, rows, offset);
  copy(tally.waited, at.waited, 1 / MINUTE);
  copy(tally.starts, at.starts, 1);
  rows.fill(0, offset + at.worked, offset + at.worked + steps);
  const { overtime, cost } = writePeople(tally, rows, offset);
  set('overtime', overtime);
  set('cost', cost);
  set('costPerGood', goods > 0 ? cost / goods : NaN);
  copy(tally.gearTime, at.gearMinutes, 1 / MINUTE);
}

/** Averages of each bin; the last one may be short. */
function writeBins(tally: Tally, rows: Float64Array, offset: number): void {
  const { bins, binMinutes, at } = tally.layout;
  const { length } = tally.cell;
  const width = binMinutes * MINUTE;
  for (let i = 0; i < tally.lineBins.length; i++) {
    const from = (i % bins) * width;
    rows[offset + at.lineAt + i] = tally.lineBins[i]! / (Math.min(length, from + width) - from);
  }
}

function writePeople(tally: Tally, rows: Float64Array, offset: number): { overtime: number; cost: number } {
  const { layout, cell } = tally;
  const { at, personStates } = layout;
  const gears = cell.gear.count;
  let overtime = 0;
  let cost = 0;
  for (let person = 0; person < cell.people.count; person++) {
    const minutes = offset + at.personMinutes + person * personStates;
    const extra = offset + at.personOvertime + person * personStates;
    const from = person * 2 * personStates;
    let within = 0;
    let after = 0;
    for (let state = 0; state < personStates; state++) {
      const regular = tally.personTime[from + state]! / MINUTE;
      const late = tally.personTime[from + personStates + state]! / MINUTE;
      rows[minutes + state] = regular;
      rows[extra + state] = late;
      if (state === NOT_IN || state === GONE) continue;
      if (state !== ON_BREAK && state !== AWAY) within += regular;
      after += late;
    }
    for (let step = 0; step < layout.steps.length; step++) {
      const worked = workingAt(gears, step);
      rows[offset + at.worked + step] =
        rows[offset + at.worked + step]! + rows[minutes + worked]! + rows[extra + worked]!;
    }
    const { breaks, away } = sharesOf(tally, person);
    const awayMinutes = rows[minutes + AWAY]!;
    day.within = within + breaks * rows[minutes + ON_BREAK]! + away * awayMinutes;
    day.elsewhere = (1 - away) * awayMinutes;
    day.after = after;
    payFor(day, cell.shift.people[person]!, cell.shift.pay, pay);
    rows[offset + at.personCost + person] = pay.total;
    overtime += after;
    cost += pay.total;
  }
  return { overtime, cost };
}

/** Shares of pay borne here of a person's breaks and times away, by their minutes. */
function sharesOf(tally: Tally, person: number): { breaks: number; away: number } {
  const known = tally.offShares[person];
  if (known !== undefined) return known;
  const share = (kind: 'break' | 'away'): number => {
    const offs = tally.cell.shift.people[person]!.offs.filter((off) => off.kind === kind);
    const minutes = offs.reduce((sum, off) => sum + off.minutes, 0);
    return minutes === 0 ? 1 : offs.reduce((sum, off) => sum + off.minutes * off.share, 0) / minutes;
  };
  const made = { breaks: share('break'), away: share('away') };
  tally.offShares[person] = made;
  return made;
}
