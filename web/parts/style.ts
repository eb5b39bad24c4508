/**
 * Styles that every part and page shares: `static override styles = [base, css`…`]`. No `style` attribute
 * gets past the page's policy: use classes, or `placed` (placed.ts).
 */
import { css } from 'lit';

export const base = css`
  :host {
    display: block;
    color: var(--ink);
    font: 400 var(--size) / 1.5 var(--text);
    font-variant-numeric: tabular-nums;
  }
  :host([hidden]),
  [hidden] {
    display: none !important;
  }
  *,
  *::before,
  *::after {
    box-sizing: border-box;
  }
  h1,
  h2,
  h3 {
    font-family: var(--serif);
    font-variant-numeric: lining-nums tabular-nums;
    font-weight: 500;
    line-height: 1.2;
    text-wrap: balance;
    margin: 0;
  }
  h2 {
    font-size: var(--size-heading);
  }
  h3 {
    font-size: var(--size-large);
    font-weight: 600;
  }
  p {
    margin: 0 0 var(--space-3);
    max-width: var(--measure);
  }
  a {
    color: inherit;
    text-decoration-thickness: 1px;
    text-underline-offset: 0.2em;
  }
  .muted {
    color: var(--muted);
  }
  .small {
    font-size: var(--size-small);
  }

  /**
   * A button is a word one can press: ink on paper over a hairline; the one that matters most on a page is
   * set firm.
   */
  button,
  .button {
    font: inherit;
    font-weight: 600;
    color: var(--ink);
    background: none;
    border: 0;
    border-bottom: 2px solid var(--hairline);
    border-radius: 0;
    min-height: var(--touch);
    min-width: var(--touch);
    padding: 0 var(--space-3);
    cursor: pointer;
    display: inline-flex;
    align-items: center;
    justify-content: center;
    gap: var(--space-2);
    text-decoration: none;
  }
  button:hover:not([disabled]),
  .button:hover {
    background: var(--shade);
    border-bottom-color: var(--ink);
  }
  button.firm {
    color: var(--paper);
    background: var(--ink);
    border-bottom-color: var(--ink);
    padding: 0 var(--space-6);
  }
  button.firm:hover:not([disabled]) {
    background: var(--muted);
    border-bottom-color: var(--ink);
  }
  button.plain {
    border-bottom-color: transparent;
  }
  button[disabled] {
    color: var(--muted);
    opacity: 0.6;
    cursor: default;
  }
  :focus-visible {
    outline: 3px solid var(--unclamping);
    outline-offset: 2px;
  }

  /* A field is a line to write on. */
  label,
  legend,
  .label {
    display: block;
    padding: 0;
    font-weight: 600;
    line-height: 1.35;
  }
  input[type='text'],
  input[type='date'],
  textarea,
  select {
    font: inherit;
    font-variant-numeric: tabular-nums;
    color: var(--ink);
    background: transparent;
    border: 0;
    border-bottom: 2px solid var(--muted);
    border-radius: 0;
    min-height: var(--touch);
    padding: var(--space-1) var(--space-2);
    width: 100%;
  }
  input::placeholder,
  textarea::placeholder {
    color: var(--muted);
    opacity: 1;
  }
  select {
    background: var(--paper);
    cursor: pointer;
  }
  input[type='text']:hover,
  input[type='date']:hover,
  textarea:hover,
  select:hover {
    background: var(--shade);
  }
  [aria-invalid='true'] {
    border-bottom-color: var(--waiting) !important;
  }
  fieldset {
    border: 0;
    margin: 0;
    padding: 0;
    min-width: 0;
  }
  .hint {
    color: var(--muted);
    font-size: var(--size-small);
    line-height: 1.4;
    margin: var(--space-1) 0 0;
    max-width: var(--measure);
  }
  /* Said in words and by a mark, never by colour alone. */
  .wrong {
    color: var(--waiting);
    font-size: var(--size-small);
    font-weight: 600;
    line-height: 1.4;
    margin: var(--space-1) 0 0;
    max-width: var(--measure);
  }
  .wrong::before {
    content: '\\25B8\\00A0' / '';
  }
  .unseen {
    position: absolute;
    width: 1px;
    height: 1px;
    overflow: hidden;
    clip-path: inset(50%);
    white-space: nowrap;
  }
  @media (prefers-reduced-motion: reduce) {
    * {
      animation: none !important;
      transition: none !important;
    }
  }
  @media print {
    button {
      display: none;
    }
  }
`;

/** The line that a part unfolds from. */
export const unfolds = css`
  summary {
    display: inline-flex;
    align-items: center;
    min-height: var(--touch);
    cursor: pointer;
    text-decoration: underline;
    text-decoration-thickness: 1px;
    text-underline-offset: 0.25em;
  }
`;
