/** From the minutes of a shift's people to what they are paid. */
import { AWAY, ON_BREAK, personPresence, personStates } from '../engine/states.ts';
import { emptyPay, type PaidDay } from '../money/pay.ts';
import type { Week } from '../money/week.ts';
import type { ResolvedPerson, ResolvedShift } from '../scenario/resolve.ts';

/** Minutes after their own end and money, of all people; and money by person. */
export interface Wages {
  overtime: number;
  cost: number;
  byPerson: Float64Array;
}

const MINUTE = 60_000;

/** Reckons the wages of a shift again and again, into one object. */
export class WageClerk {
  readonly wages: Wages;
  private readonly people: ResolvedPerson[];
  private readonly states: number;
  /** By state: is somebody in it paid for it, whatever the file says of breaks; are they there at all? */
  private readonly isHere: Uint8Array;
  private readonly isThere: Uint8Array;
  /** Shares of pay borne here of each person's breaks and times away. */
  private readonly shares: { breaks: number; away: number }[];
  private readonly pay = emptyPay();
  private readonly day: PaidDay = { within: 0, elsewhere: 0, after: 0 };

  constructor({ people, gear, steps }: ResolvedShift) {
    this.people = people;
    this.states = personStates(gear.length, steps.length);
    this.isHere = Uint8Array.from({ length: this.states }, (_, i) => Number(personPresence(i) === 'here'));
    this.isThere = Uint8Array.from({ length: this.states }, (_, i) => Number(personPresence(i) !== 'gone'));
    this.shares = people.map(sharesOf);
    this.wages = { overtime: 0, cost: 0, byPerson: new Float64Array(people.length) };
  }

  /** @param personTime as `Accounts` has it. @param week told the shifts of a replication in order. */
  reckon(personTime: Float64Array, week: Week, shift: number): void {
    const { wages, pay, day } = this;
    wages.overtime = 0;
    wages.cost = 0;
    for (let person = 0; person < this.people.length; person++) {
      this.minutesOf(personTime, person);
      week.pay(shift, person, day, pay);
      wages.byPerson[person] = pay.total;
      wages.overtime += day.after;
      wages.cost += pay.total;
    }
  }

  /** A person's paid minutes, into `day`. */
  private minutesOf(personTime: Float64Array, person: number): void {
    const { states, day, isHere, isThere } = this;
    const from = 2 * person * states;
    let within = 0;
    let after = 0;
    for (let state = 0; state < states; state++) {
      if (isHere[state] !== 0) within += personTime[from + state]! / MINUTE;
      if (isThere[state] !== 0) after += personTime[from + states + state]! / MINUTE;
    }
    const { breaks, away } = this.shares[person]!;
    const awayMinutes = personTime[from + AWAY]! / MINUTE;
    day.within = within + breaks * (personTime[from + ON_BREAK]! / MINUTE) + away * awayMinutes;
    day.elsewhere = (1 - away) * awayMinutes;
    day.after = after;
  }
}

/** By the minutes of each time off. */
function sharesOf({ offs }: ResolvedPerson): { breaks: number; away: number } {
  const share = (kind: 'break' | 'away'): number => {
    const own = offs.filter((off) => off.kind === kind);
    const minutes = own.reduce((sum, off) => sum + off.minutes, 0);
    return minutes === 0 ? 1 : own.reduce((sum, off) => sum + off.minutes * off.share, 0) / minutes;
  };
  return { breaks: share('break'), away: share('away') };
}
