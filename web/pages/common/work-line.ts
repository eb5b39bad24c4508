/** How work stands that a page has asked for, where it is not done: what is said, and the way on. */
import { html, nothing, type TemplateResult } from 'lit';
import type { Live } from '../../work/live.ts';

export interface WorkWords {
  /** Said, or drawn, while it runs; `stop`: with a button to stop it. */
  running?: unknown;
  stop?: boolean;
  /** Said once it was stopped by hand, and the word on the button that goes on. */
  stopped?: string;
  on?: string;
  /** The word on the button after a failure. */
  again: string;
}

export function workLine(
  live: Live<unknown>,
  { running = nothing, stop = false, stopped = '', on = 'run on', again }: WorkWords,
): TemplateResult | typeof nothing {
  const button = (word: string, act: () => void): TemplateResult =>
    html`<button type="button" @click=${act}>${word}</button>`;
  switch (live.state.kind) {
    case 'waiting':
    case 'done':
      return nothing;
    case 'running':
      return html`${running}${stop ? button('stop', () => live.stop()) : nothing}`;
    case 'stopped':
      return html`<p class="muted">${stopped}</p>
        ${button(on, () => live.again())}`;
    case 'failed':
      return html`<p class="wrong" role="alert">${live.state.message}</p>
        ${button(again, () => live.again())}`;
  }
}
