/**
 * What all pages have in common, as one controller of the page's element: the cell at hand and the address,
 * questions asked when something they depend on is another, work that stops when the page is left and begins
 * again when it comes back, the sheet with the cell's mistakes on top and its cautions at the foot.
 */
import { html, nothing, type ReactiveController, type TemplateResult } from 'lit';
import type { Scenario } from '../../../src/scenario/schema.ts';
import type { OpenedDay } from '../../../src/today/opened-day.ts';
import '../../parts/sheet.ts';
import { dayTaken, dayValues } from '../../shell/day.ts';
import { addressOf, route } from '../../shell/route.ts';
import type { CellStore } from '../../store/cell-store.ts';
import type { Value } from '../../store/value.ts';
import { Live } from '../../work/live.ts';
import { lastOf } from '../../work/same.ts';
import type { Page, PageElement } from '../page.ts';
import './cautions.ts';
import { dayLine } from './day-line.ts';
import { faultsLine } from './faults.ts';

export interface PageSettings {
  /** Another cell is at hand: read what is kept of it, forget what was on its way. */
  opened?: (store: CellStore) => void;
  /** Before every drawing, with a cell that can be run: ask what the page answers (`Live.askOf`). */
  ask?: (scenario: Scenario) => void;
  /** What the page is drawn again for, besides its own properties. Default: the cell and its mistakes. */
  watched?: (store: CellStore) => Pick<Value<unknown>, 'subscribe'>[];
  /**
   * The page takes the day up: its cell is that of the day the pages are about, with the opening stock and
   * the plan that the book has of it.
   */
  ofDay?: true;
}

/** What a page says in its sheet. */
export interface Said {
  /** Where it is not the one in list.ts. */
  question?: string;
  /** The heading, in a sentence. */
  answer: string;
  /** Children of the sheet, the picture first; slots `controls`, `more` and `after` as in parts/sheet.ts. */
  body: unknown;
  /** The cells whose cautions stand at the foot. Default: the cell at hand; none: `[]`. */
  cautions?: Scenario[];
  /** Which day it is about stands in the body already. */
  saysDay?: true;
}

export class PageController implements ReactiveController {
  private readonly host: PageElement;
  private readonly settings: PageSettings;
  private readonly lives: Live<unknown>[] = [];
  private given: { store: CellStore; rest: string[]; page: Page } | null = null;
  private openedStore: CellStore | null = null;
  private unsubscribe: (() => void)[] = [];

  constructor(host: PageElement, settings: PageSettings) {
    this.host = host;
    this.settings = settings;
    host.addController(this);
  }

  /** Called by the app, before the page is first drawn and whenever the cell or the address is another. */
  give(page: Page, store: CellStore, rest: string[]): void {
    const was = this.given;
    if (was?.store === store && was.rest.join('/') === rest.join('/')) return;
    this.given = { page, store, rest };
    if (was !== null && was.store !== store && this.host.isConnected) this.watch();
    this.host.requestUpdate();
  }

  get store(): CellStore {
    return this.there.store;
  }

  /** What follows the page in the address. */
  get rest(): string[] {
    return this.there.rest;
  }

  /**
   * The cell as it can be run, perhaps from before the last mistake; null where there is none. On a page of
   * the day the cell on that day.
   */
  get scenario(): Scenario | null {
    return this.day?.scenario ?? this.store.scenario.get();
  }

  /** What a page of the day takes up; null where the book has nothing of it and nobody chose it. */
  get day(): OpenedDay | null {
    const filed = this.store.scenario.get();
    return this.settings.ofDay === true && filed !== null ? dayTaken(this.store, filed) : null;
  }

  /** Work of this page; stopped with it. */
  live<Answer>(): Live<Answer> {
    const live = new Live<Answer>(this.host);
    this.lives.push(live as Live<unknown>);
    return live;
  }

  /** Into the address, so that it can be come back to; not a step back for each. */
  turnTo(...rest: string[]): void {
    const { page, store } = this.there;
    this.given = { page, store, rest };
    history.replaceState(null, '', addressOf(page.route, ...rest));
    route.set({ page: page.route, rest });
    this.host.requestUpdate();
  }

  /** What a lead would ask aloud, as in list.ts. */
  get question(): string {
    return this.there.page.question;
  }

  /**
   * The page as it is drawn of the cell at hand; `unable` is its heading while there is no cell that can be
   * run: "Nothing can be compared until the cell is put right."
   */
  sheet(unable: string, draw: (scenario: Scenario) => Said): TemplateResult {
    const { scenario, store } = this;
    const { question, answer, body, cautions, saysDay }: Said =
      scenario === null ? { answer: unable, body: nothing, cautions: [] } : draw(scenario);
    const cautioned = this.cautioned(...(cautions ?? [scenario!]));
    return html`<cw-sheet question=${question ?? this.question} answer=${answer} @cw-stop=${this.stop}>
      ${faultsLine(store)} ${saysDay === true ? nothing : dayLine(this.day)} ${body}
      ${cautioned.length === 0 ? nothing : html`<cw-cautions slot="after" .scenarios=${cautioned}></cw-cautions>`}
    </cw-sheet>`;
  }

  /** Stops all the work of the page; what is known by then stays. */
  readonly stop = (): void => this.lives.forEach((live) => live.stop());

  hostConnected(): void {
    if (this.given !== null) this.watch();
    this.host.requestUpdate();
  }

  hostUpdate(): void {
    const { store, scenario } = this;
    if (store !== this.openedStore) {
      this.openedStore = store;
      this.settings.opened?.(store);
    }
    if (scenario !== null) this.settings.ask?.(scenario);
  }

  hostDisconnected(): void {
    for (const stop of this.unsubscribe.splice(0)) stop();
  }

  /** The same list as long as the same cells are in it. */
  private readonly cautioned = lastOf((...scenarios: Scenario[]) => scenarios);

  private get there(): { store: CellStore; rest: string[]; page: Page } {
    if (this.given === null) throw new Error('the page was not given a cell yet');
    return this.given;
  }

  private watch(): void {
    this.hostDisconnected();
    const { watched = (store) => [store.scenario, store.reading] } = this.settings;
    const all = [...watched(this.store), ...(this.settings.ofDay === true ? dayValues(this.store) : [])];
    this.unsubscribe = all.map((value) => value.subscribe(() => this.host.requestUpdate()));
  }
}
