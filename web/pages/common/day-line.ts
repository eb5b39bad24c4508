/** Which day a page is about and whose plan it is reckoned with, under its heading. */
import { html, nothing, type TemplateResult } from 'lit';
import { daySentence } from '../../../src/report/day-words.ts';
import type { OpenedDay } from '../../../src/today/opened-day.ts';

export const dayLine = (day: OpenedDay | null): TemplateResult | typeof nothing =>
  day === null
    ? nothing
    : html`<p class="day">${daySentence(day)}</p>
        ${day.unused.map((sentence) => html`<p class="wrong" role="status">${sentence}</p>`)}`;
