import { css } from 'lit';
import { base } from '../../parts/style.ts';

export const pageStyle = [
  base,
  css`
    .makes {
      font-size: var(--size-large);
      min-height: 3em;
      margin-bottom: var(--space-4);
    }
    .makes button {
      margin-left: var(--space-2);
    }
    .faults {
      border-left: 4px solid var(--waiting);
      padding: var(--space-1) 0 var(--space-1) var(--space-4);
      margin: 0 0 var(--space-6);
      list-style: none;
    }
    .faults p {
      margin: 0;
    }
    .begin {
      border-top: 2px solid var(--ink);
      border-bottom: 1px solid var(--hairline);
      padding: var(--space-4) 0;
      margin-bottom: var(--space-8);
    }
    .begin h2 {
      font-size: var(--size-large);
      font-weight: 600;
    }
    .begin h3 {
      margin: var(--space-6) 0 var(--space-2);
    }
    .begin .times {
      display: grid;
      grid-template-columns: repeat(auto-fill, minmax(12.5rem, 1fr));
      gap: var(--space-4);
    }
    .begin .words button {
      margin-right: var(--space-1);
    }
    .begin summary {
      min-height: var(--touch);
      line-height: var(--touch);
      cursor: pointer;
      text-decoration: underline;
      text-underline-offset: 0.25em;
      font-size: var(--size-small);
    }
    .begin .ask {
      font-size: var(--size-large);
      margin-right: var(--space-4);
    }
    .part {
      margin-top: var(--space-12);
    }
    .part h2 {
      margin-bottom: var(--space-2);
    }
    ul {
      list-style: none;
      margin: 0;
      padding: 0;
    }
    li {
      border-bottom: 1px solid var(--hairline);
    }
    .line {
      width: 100%;
      display: grid;
      grid-template-columns: minmax(7rem, 1fr) 3fr;
      gap: var(--space-4);
      justify-content: stretch;
      text-align: left;
      border-bottom: 0;
      padding: var(--space-2);
      margin: 0 calc(-1 * var(--space-2));
      font-weight: 400;
      align-items: baseline;
    }
    .line > * {
      overflow-wrap: anywhere;
    }
    .line .name {
      font-weight: 600;
    }
    .line .about {
      color: var(--muted);
    }
    .line[aria-current='true'] {
      box-shadow: inset 4px 0 0 var(--ink);
    }
    .line[aria-current='true'] .about {
      color: var(--ink);
    }
    .add {
      font-weight: 400;
      border-bottom-color: transparent;
      padding: 0 var(--space-2);
      margin-left: calc(-1 * var(--space-2));
    }
    @media (max-width: 559px) {
      .line {
        grid-template-columns: 1fr;
        gap: 0;
      }
    }
    @media (min-width: 1024px) {
      .panel {
        position: sticky;
        top: var(--space-4);
        max-height: calc(100vh - 32px);
        overflow-y: auto;
        overscroll-behavior: contain;
        padding: 4px;
        margin: -4px;
      }
    }
    @media print {
      .line {
        display: grid;
        border-bottom: 0;
      }
      .makes button,
      .begin {
        display: none;
      }
      .part {
        margin-top: var(--space-6);
        break-inside: avoid;
      }
    }
  `,
];

export const panelStyle = [
  base,
  css`
    h2:focus {
      outline: none;
    }
    h4 {
      margin: var(--space-4) 0 0;
      font-size: var(--size);
    }
    .stack {
      display: grid;
      grid-template-columns: minmax(0, 1fr);
      gap: var(--space-6);
      padding: var(--space-4) 0;
    }
    .effect {
      border-top: 2px solid var(--ink);
      border-bottom: 1px solid var(--hairline);
      padding: var(--space-3) 0;
      margin: var(--space-3) 0 0;
      min-height: 5.5em;
    }
    .effect p {
      margin: 0;
    }
    .words {
      display: flex;
      flex-wrap: wrap;
      gap: 0 var(--space-2);
    }
    .words button {
      font-weight: 400;
    }
    .acts {
      display: flex;
      flex-wrap: wrap;
      gap: 0 var(--space-1);
      margin-left: calc(-1 * var(--space-2));
    }
    .acts button {
      font-weight: 400;
      font-size: var(--size-small);
      padding: 0 var(--space-2);
    }
    .entry {
      display: grid;
      grid-template-columns: minmax(0, 1fr);
      gap: var(--space-3);
      border-left: 2px solid var(--hairline);
      padding: 0 0 0 var(--space-3);
      margin: var(--space-3) 0;
    }
    .entry .out {
      justify-self: start;
      padding-left: 0;
    }
    .stander,
    .skill {
      border-bottom: 1px solid var(--hairline);
      padding-bottom: var(--space-2);
    }
    .caution {
      font-size: var(--size-small);
      line-height: 1.45;
      border-left: 2px solid var(--muted);
      padding-left: var(--space-3);
      margin: var(--space-2) 0 0;
    }
    .caution .source {
      color: var(--muted);
    }
    details.more {
      border-bottom: 1px solid var(--hairline);
    }
    details.more > summary {
      display: flex;
      align-items: center;
      justify-content: space-between;
      min-height: var(--touch);
      cursor: pointer;
      font-weight: 600;
      list-style: none;
    }
    details.more > summary::-webkit-details-marker {
      display: none;
    }
    details.more > summary::after {
      content: '+' / '';
      font-weight: 400;
      font-size: 1.25rem;
    }
    details.more[open] > summary::after {
      content: '−' / '';
    }
    .add {
      font-weight: 400;
    }
  `,
];
