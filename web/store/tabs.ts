/** The other tabs that have the same cell open: told when something is kept, and counted. */
import { Value } from './value.ts';

/** What a tab tells the others; `entries`: of the cell's days. */
type Message =
  | { kind: 'at'; tab: string; cell: string; answer: boolean }
  | { kind: 'left'; tab: string }
  | { kind: 'saved'; tab: string; cell: string }
  | { kind: 'entries'; tab: string; cell: string };

export class Tabs {
  readonly own = Math.random().toString(36).slice(2);
  readonly others = new Value(0);
  onSaved: (cell: string) => void = () => {};
  onEntries: (cell: string) => void = () => {};
  private readonly channel =
    typeof BroadcastChannel === 'undefined' ? null : new BroadcastChannel('clampwright');
  private readonly places = new Map<string, string>();
  private cell = '';

  constructor() {
    this.channel?.addEventListener('message', (event: MessageEvent<Message>) => this.hear(event.data));
  }

  private hear(message: Message): void {
    if (message.kind === 'saved') this.onSaved(message.cell);
    if (message.kind === 'entries') this.onEntries(message.cell);
    if (message.kind === 'left') this.places.delete(message.tab);
    if (message.kind === 'at') {
      this.places.set(message.tab, message.cell);
      if (message.answer) this.tell({ kind: 'at', tab: this.own, cell: this.cell, answer: false });
    }
    this.count();
  }

  private count(): void {
    this.others.set([...this.places.values()].filter((cell) => cell === this.cell).length);
  }

  private tell(message: Message): void {
    this.channel?.postMessage(message);
  }

  /** This tab has the cell open from now on. */
  at(cell: string): void {
    this.cell = cell;
    this.tell({ kind: 'at', tab: this.own, cell, answer: true });
    this.count();
  }

  saved(cell: string): void {
    this.tell({ kind: 'saved', tab: this.own, cell });
  }

  entries(cell: string): void {
    this.tell({ kind: 'entries', tab: this.own, cell });
  }

  leave(): void {
    this.tell({ kind: 'left', tab: this.own });
  }
}
