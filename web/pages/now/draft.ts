/**
 * The count under way, as a controller of the page that shows it: of one day, begun with what was counted
 * last on it, kept as it is counted, and followed from tab to tab. While nothing is counted its time is the
 * clock's.
 */
import type { ReactiveController } from 'lit';
import { clockAfter } from '../../../src/scenario/clock.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import { checkNow } from '../../../src/today/check-now.ts';
import { countKept } from '../../../src/today/kept-counts.ts';
import { emptyNow, goodSoFar, type NowState } from '../../../src/today/state.ts';
import { say } from '../../parts/notice.ts';
import { clock, dayAbout, openedFor, today } from '../../shell/day.ts';
import { shiftOf } from '../common/resolved.ts';
import type { PageElement } from '../page.ts';
import { countFor, keepCount, watchCount } from './kept.ts';

/** Nothing counted in yet: there is nothing to forecast from. */
export const isEmpty = (now: NowState): boolean => now.inside.length === 0 && goodSoFar(now) === 0;

export class CountDraft implements ReactiveController {
  now: NowState | null = null;
  note = '';
  private readonly host: PageElement;
  private cell = '';
  private day = '';
  /** The time of the count was said by hand. */
  private timed = false;
  /** Nobody has counted or wiped here: the book, which is read a moment later, may have a count. */
  private untouched = true;
  private stops: (() => void)[] = [];

  constructor(host: PageElement) {
    this.host = host;
    host.addController(this);
  }

  /** Called before every drawing: another day or another cell has another count. */
  open(scenario: Scenario): NowState {
    const { store } = this.host.page;
    const day = dayAbout(store);
    if (this.now === null || this.cell !== store.id || this.day !== day) {
      const kept = countFor(store.id, day);
      [this.cell, this.day, this.timed, this.untouched] = [store.id, day, false, kept === null];
      this.now = kept?.now ?? begun(scenario, this.timeOf(scenario));
      this.note = kept?.note ?? '';
      this.listen();
    }
    if (this.untouched && isEmpty(this.now)) this.now = this.lastKept(scenario) ?? this.now;
    if (isEmpty(this.now) && !this.timed) this.now = { ...this.now, at: this.timeOf(scenario) };
    return this.now;
  }

  /** The minute by the clock where it is within the day, otherwise the middle of the shift. */
  timeOf(scenario: Scenario): string {
    return this.clockOf(scenario) ?? middleOf(scenario);
  }

  /** The minute by the clock; null where the day is another, or its shift has not begun or is long over. */
  clockOf(scenario: Scenario): string | null {
    const at = clock.get();
    const runs = this.day === today.get() && checkNow(scenario, emptyNow(at)).kind === 'fine';
    return runs ? at : null;
  }

  set(now: NowState, note = this.note): void {
    this.timed = this.timed || now.at !== this.now?.at;
    this.untouched = false;
    this.now = now;
    this.note = note;
    this.host.requestUpdate();
    if (!keepCount(this.cell, { now, note, day: this.day }))
      say('This browser keeps nothing: the count is lost when the page is closed.', { kind: 'wrong' });
  }

  wipe(scenario: Scenario): void {
    this.set(begun(scenario, this.timeOf(scenario)));
    this.timed = false;
  }

  hostConnected(): void {
    if (this.cell !== '') this.listen();
  }

  hostDisconnected(): void {
    for (const stop of this.stops.splice(0)) stop();
    // Another page may count on meanwhile.
    this.now = null;
  }

  /** The last count that the book has of the day. */
  private lastKept(scenario: Scenario): NowState | null {
    const { store } = this.host.page;
    const filed = store.scenario.get();
    if (filed === null) return null;
    const last = openedFor(store, filed, this.day).view.counts.at(-1);
    if (last === undefined) return null;
    const checked = checkNow(scenario, countKept(last.content));
    return checked.kind === 'fine' ? checked.now : null;
  }

  private listen(): void {
    for (const stop of this.stops.splice(0)) stop();
    this.stops = [
      watchCount(this.cell, ({ now, note, day }) => {
        if (day !== undefined && day !== this.day) return;
        this.now = now;
        this.note = note;
        this.host.requestUpdate();
      }),
      clock.subscribe(() => this.host.requestUpdate()),
    ];
  }
}

/** Nothing counted; what the file holds back is held back until somebody says otherwise. */
const begun = (scenario: Scenario, at: string): NowState => ({
  ...emptyNow(at),
  holds: scenario.holds === undefined ? [] : scenario.holds,
});

/** The middle of the shift, where the clock says nothing. */
function middleOf(scenario: Scenario): string {
  const { start, length } = shiftOf(scenario);
  return clockAfter(start, Math.round(length / 2 / 5) * 5);
}
