/** The app: the shell, the page that the address names, and the cell at hand. */
import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import demoText from '../scenarios/chair-works.json?raw';
import { dayOf } from '../src/book/day.ts';
import { digits } from '../src/words/digits.ts';
import { workOffline } from './offline/register.ts';
import { pages } from './pages/list.ts';
import { wordOf, type Page, type PageElement } from './pages/page.ts';
import type { PartEvent } from './parts/events.ts';
import { say } from './parts/notice.ts';
import './parts/sheet.ts';
import { base } from './parts/style.ts';
import './shell/cells-dialog.ts';
import { dayAbout, dayValues } from './shell/day.ts';
import './shell/days-dialog.ts';
import { newCell } from './shell/new-cell.ts';
import { addressOf, route } from './shell/route.ts';
import './shell/shell.ts';
import './shell/welcome.ts';
import { NOT_KEPT, openCells, sayAside, sayLasting } from './shell/open-cells.ts';
import { entriesOf } from './store/book.ts';
import type { CellStore } from './store/cell-store.ts';
import type { Cells } from './store/cells.ts';
import type { Json } from './store/draft.ts';
import { chooseFile, fileName, fileText, readFile, saveFile, type Chosen } from './store/files.ts';
import type { Kept } from './store/keeper.ts';
import { linkedId, readShare, shareHash } from './store/share.ts';
import { newId } from './store/shelf.ts';
import { Watch } from './store/value.ts';
import { aTurn } from './work/turn.ts';

const demo = JSON.parse(demoText) as Json;
const pageCalled = (route: string): Page | undefined => pages.find((page) => page.route === route);
/** Nobody waits longer than this for a book that does not come, milliseconds. */
const FOR_THE_BOOK = 1000;

@customElement('cw-app')
export class CwApp extends LitElement {
  static override styles = [
    base,
    css`
      :host {
        display: block;
      }
    `,
  ];
  @state() private cells: Cells | null = null;
  @state() private choosing = false;
  @state() private choosingDay = false;
  private watches: Watch[] = [];
  private page: PageElement | null = null;
  private saidKept: Kept['kind'] = 'kept';
  /** The page that opens where the address names none: the demo shop with its answer, or the day's own. */
  private opening = pageCalled('compare')!;

  constructor() {
    super();
    new Watch(this, route);
  }

  override connectedCallback(): void {
    super.connectedCallback();
    void this.begin();
    route.subscribe(() => void this.readLink());
    document.addEventListener('dragover', (event) => event.preventDefault());
    document.addEventListener('drop', this.dropped);
  }

  private async begin(): Promise<void> {
    // The first number a browser writes takes it some twenty milliseconds: better here, where it waits for
    // the store, than in the first answer.
    void aTurn().then(() => [0, 1, 2].forEach((decimals) => digits(decimals).format(0)));
    const cells = await openCells(demo);
    if (pageCalled(route.get().page) === undefined && (await hasPlan(cells.current.get())))
      this.opening = pageCalled('morning')!;
    this.cells = cells;
    this.cells.onAside = (things) => sayAside(things);
    this.cells.onLasting = sayLasting;
    const { current, keeper, others } = this.cells;
    const follow = (): void => {
      for (const watch of this.watches) {
        watch.hostDisconnected();
        this.removeController(watch);
      }
      const store = current.get();
      this.watches = [
        new Watch(this, store.draft, store.history, keeper.get().kept, others, ...dayValues(store)),
      ];
      keeper.get().kept.subscribe((kept) => this.sayKept(kept));
    };
    current.subscribe(follow);
    // Another keeper for the same cell: the browser keeps things after all.
    keeper.subscribe(follow);
    follow();
    await this.readLink();
  }

  /** Said once when keeping begins to fail, and once when it works again. */
  private sayKept(kept: Kept): void {
    if (kept.kind === 'keeping' || kept.kind === this.saidKept) return;
    if (kept.kind === 'failed')
      say(NOT_KEPT[kept.why], { kind: 'wrong', act: { label: 'save', run: () => this.save() } });
    else if (this.saidKept === 'failed') say('Changes are being kept again.');
    this.saidKept = kept.kind;
  }

  protected override render(): TemplateResult | typeof nothing {
    if (this.cells === null) return nothing;
    const store = this.cells.current.get();
    const kept = this.cells.keeper.get().kept.get();
    const words = { kept: 'kept', keeping: 'kept', held: 'not kept', failed: 'not kept' }[kept.kind];
    const others = this.cells.others.get();
    return html`<cw-shell
        .pages=${pages}
        page=${this.wanted.route}
        name=${store.name}
        day=${dayAbout(store)}
        kept=${others > 0 ? `${words}, also open in another tab` : words}
        ?canUndo=${store.canUndo}
        ?canRedo=${store.canRedo}
        undoWords=${store.history.get().past.at(-1)?.say ?? ''}
        @cw-act=${this.act}
      >
        <cw-welcome ?invented=${store.at(['invented']) === true}></cw-welcome>
        <div id="page"></div>
      </cw-shell>
      <cw-cells
        .cells=${this.cells}
        .demo=${demo}
        .fresh=${newCell}
        ?open=${this.choosing}
        @cw-close=${() => (this.choosing = false)}
      ></cw-cells>
      <cw-days
        .store=${store}
        ?open=${this.choosingDay}
        @cw-close=${() => (this.choosingDay = false)}
      ></cw-days>`;
  }

  /** The page that the address names. */
  private get wanted(): Page {
    return pageCalled(route.get().page) ?? this.opening;
  }

  protected override updated(): void {
    void this.show();
  }

  private async show(): Promise<void> {
    const { wanted } = this;
    if (this.cells === null) return;
    const PageClass = await wanted.element();
    if (wanted !== this.wanted) return;
    const was = this.page;
    const page = was instanceof PageClass ? was : new PageClass();
    page.page.give(wanted, this.cells.current.get(), route.get().rest);
    if (page === was) return;
    this.page = page;
    this.renderRoot.querySelector('#page')!.replaceChildren(page);
    document.title = `${wordOf(wanted)}: Clampwright`;
    if (was === null) return;
    await page.updateComplete;
    page.renderRoot.querySelector('cw-sheet')?.focus();
    scrollTo(0, 0);
  }

  private readonly act = (event: PartEvent<'cw-act'>): void => {
    const store = this.cells!.current.get();
    switch (event.detail.act) {
      case 'undo':
        return sayTurn('Taken back', store.undo());
      case 'redo':
        return sayTurn('Done again', store.redo());
      case 'own':
        return void this.cells!.add(newCell()).then(() => (location.hash = addressOf('cell')));
      case 'cells':
        this.choosing = true;
        return;
      case 'days':
        this.choosingDay = true;
        return;
      case 'open':
        return void chooseFile('.json,application/json').then((chosen) => this.bring(chosen));
      case 'save':
        return this.save();
      case 'share':
        return void this.share();
    }
  };

  private save(): void {
    const store = this.cells!.current.get();
    saveFile(fileName(store), fileText(store));
  }

  private async share(): Promise<void> {
    const store = this.cells!.current.get();
    const link = `${location.href.replace(/#.*$/s, '')}${await shareHash(fileText(store))}`;
    try {
      await navigator.clipboard.writeText(link);
      say(
        location.protocol === 'file:'
          ? 'Link copied. It opens where this same file lies.'
          : 'Link copied: the whole cell is in it, and it goes through no server.',
      );
    } catch {
      history.replaceState(null, '', link);
      say('The link is in the address bar now: copy it from there.');
    }
  }

  private readonly dropped = (event: DragEvent): void => {
    const file = event.dataTransfer?.files[0];
    if (file === undefined) return;
    event.preventDefault();
    void readFile(file).then((chosen) => this.bring(chosen));
  };

  private async bring(chosen: Chosen, id?: string): Promise<void> {
    if (chosen.kind === 'none') return;
    if (chosen.kind === 'wrong') return say(chosen.message, { kind: 'wrong' });
    const brought = await this.cells!.bring(chosen.text, id);
    if (brought.kind === 'fine') {
      say(`“${this.cells!.current.get().name}” opened. The others are kept.`);
      if (chosen.note !== null) say(chosen.note, { kind: 'wrong' });
    } else
      say(
        `“${chosen.name}” was not opened. ${brought.faults[0]!.text}${brought.faults.length > 1 ? ` And ${brought.faults.length - 1} more.` : ''}`,
        { kind: 'wrong' },
      );
  }

  /** The link being read, so that it is read once. */
  private link = '';

  /**
   * A cell in the address is added to those here, and only then taken out of the address. A reload, before or
   * after, neither loses it nor adds it again.
   */
  private async readLink(): Promise<void> {
    const { hash } = location;
    if (this.cells === null || hash === this.link) return;
    const shared = await readShare(hash);
    if (shared.kind === 'none' || hash === this.link) return;
    this.link = hash;
    await this.bring(
      shared.kind === 'fine'
        ? { kind: 'fine', name: 'The shared cell', text: shared.text, note: null }
        : shared,
      linkedId(hash, newId),
    );
    this.link = '';
    if (location.hash !== hash) return;
    history.replaceState(null, '', `${location.pathname}${location.search}#/`);
    route.set({ page: '', rest: [] });
  }
}

/** Has the book a plan for the day at hand? */
async function hasPlan(store: CellStore): Promise<boolean> {
  const { read } = store.entries;
  if (!read.get())
    await new Promise<void>((resolve) => {
      read.subscribe(() => resolve());
      setTimeout(resolve, FOR_THE_BOOK);
    });
  return dayOf(entriesOf(store), dayAbout(store)).plan !== null;
}

const sayTurn = (how: string, what: string | null): void => {
  if (what !== null) say(`${how}: ${what}.`);
};

workOffline();

declare global {
  interface HTMLElementTagNameMap {
    'cw-app': CwApp;
  }
}
