import { css } from 'lit';
import { base } from '../../parts/style.ts';
import { ledgerStyle } from './ledger.ts';

export const pageStyle = [
  base,
  ledgerStyle,
  css`
    section {
      margin-top: var(--space-8);
    }
    h2 {
      margin-bottom: var(--space-3);
    }
    /* What the picture will take, so that nothing jumps when it comes. */
    .room {
      min-height: 420px;
    }
    @media print {
      .room {
        min-height: 0;
      }
      section {
        margin-top: var(--space-4);
        break-inside: avoid;
      }
    }
    .pays {
      margin-top: var(--space-3);
    }
    .edit {
      margin-top: var(--space-6);
      padding-top: var(--space-4);
      border-top: 1px solid var(--hairline);
    }
  `,
];
