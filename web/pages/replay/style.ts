import { css } from 'lit';
import { unfolds } from '../../parts/style.ts';

export const pageStyle = css`
  .row {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: var(--space-1) var(--space-3);
    margin-bottom: var(--space-2);
  }
  .clock {
    font: 500 var(--size-heading) / 1 var(--serif);
    font-variant-numeric: lining-nums tabular-nums;
    min-width: 4.5ch;
  }
  .why {
    border-top: 2px solid var(--ink);
    border-bottom: 1px solid var(--hairline);
    padding: var(--space-3) 0;
    min-height: 6.5em;
    margin: var(--space-4) 0;
  }
  .why p,
  dd {
    margin: 0;
  }
  section {
    margin-top: var(--space-8);
  }
  h2 {
    margin-bottom: var(--space-3);
  }
  h2.at {
    font-size: var(--size-large);
    font-weight: 600;
    margin-bottom: 0;
  }
  dl {
    margin: 0;
    display: grid;
    grid-template-columns: repeat(auto-fill, minmax(min(100%, 14rem), 1fr));
    column-gap: var(--space-8);
  }
  /* Whatever lane is touched, what is said of it stays in sight. */
  @media screen {
    .why {
      position: sticky;
      bottom: 0;
      max-height: 38vh;
      overflow-y: auto;
      background: var(--paper);
      z-index: 1;
    }
  }
  dl div {
    padding: var(--space-2) 0;
    border-bottom: 1px solid var(--hairline);
    font-size: var(--size-small);
    line-height: 1.4;
  }
  dt {
    font-weight: 600;
  }
  ol {
    list-style: none;
    margin: 0;
    padding: 0;
  }
  ol.waits button {
    width: 100%;
    display: block;
    text-align: left;
    font-weight: 400;
    padding: var(--space-2) 0;
    border-bottom-width: 1px;
  }
  ol.waits button[aria-current] {
    font-weight: 600;
  }
  .stack {
    display: grid;
    gap: var(--space-6);
  }
  ${unfolds}
  .events li {
    font-size: var(--size-small);
    padding: 2px 0;
    display: grid;
    grid-template-columns: 4rem 1fr;
  }
  .room {
    min-height: 480px;
  }
  @media print {
    ol.waits button {
      display: block;
      padding: 1mm 0;
    }
    .row,
    details {
      display: none;
    }
    ol.waits li {
      break-inside: avoid;
    }
  }
`;
