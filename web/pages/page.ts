/** What a page is: its entry in list.ts, and the element its file defines. */
import type { LitElement } from 'lit';
import type { PageController } from './common/page-controller.ts';

/** Where in a lead's day a page belongs, or whom it is for; `behind` the others: what they rest on. */
export type Group = 'before' | 'during' | 'after' | 'upstairs' | 'behind';

/** The app hands the cell and the address to the page's controller, which sees to everything pages share. */
export interface PageElement extends LitElement {
  readonly page: PageController;
}

export interface Page {
  /** What the address calls it (`#/compare`), and, with a capital, the word in the line at the top. */
  route: string;
  /** What a lead would say aloud; the heading answers it. */
  question: string;
  group: Group;
  /** Loads the page's file when it is first turned to. */
  element: () => Promise<new () => PageElement>;
}

export const wordOf = ({ route }: Pick<Page, 'route'>): string =>
  `${route.charAt(0).toUpperCase()}${route.slice(1)}`;
