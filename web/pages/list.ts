/** The pages, in the order of the line of words at the top. A new page is one file and one line here. */
import type { LitElement } from 'lit';
import type { CellStore } from '../store/cell-store.ts';
import type { PageWord } from '../shell/shell.ts';

/** What the app hands every page. `rest` is what follows the page in the address. */
export interface PageElement extends LitElement {
  store: CellStore;
  rest: string[];
}

export interface Page extends PageWord {
  /** The tag the page's file defines. */
  tag: string;
  load: () => Promise<unknown>;
}

export const pages: Page[] = [
  {
    id: 'cell',
    word: 'Cell',
    question: 'What does our cell look like?',
    tag: 'cw-cell',
    load: () => import('./cell/cell-page.ts'),
  },
  {
    id: 'compare',
    word: 'Compare',
    question: 'What if?',
    tag: 'cw-compare',
    load: () => import('./compare/compare-page.ts'),
  },
  {
    id: 'limits',
    word: 'Limits',
    question: 'What holds us back?',
    tag: 'cw-limits',
    load: () => import('./limits/limits-page.ts'),
  },
  {
    id: 'replay',
    word: 'Replay',
    question: 'Show me',
    tag: 'cw-replay',
    load: () => import('./replay/replay-page.ts'),
  },
  {
    id: 'crew',
    word: 'Crew',
    question: 'Who stands where tomorrow?',
    tag: 'cw-crew',
    load: () => import('./crew/crew-page.ts'),
  },
  {
    id: 'now',
    word: 'Now',
    question: 'Do we still make it?',
    tag: 'cw-now',
    load: () => import('./now/now-page.ts'),
  },
  {
    id: 'log',
    word: 'Log',
    question: 'Was the forecast right?',
    tag: 'cw-log',
    load: () => import('./log/log-page.ts'),
  },
  {
    id: 'times',
    word: 'Times',
    question: 'What are our times?',
    tag: 'cw-times',
    load: () => import('./times/times-page.ts'),
  },
  {
    id: 'brief',
    word: 'Brief',
    question: 'What do I tell them upstairs?',
    tag: 'cw-brief',
    load: () => import('./brief/brief-page.ts'),
  },
];
