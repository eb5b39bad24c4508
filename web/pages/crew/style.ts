/** What the parts of the crew's page have in common. */
import { css } from 'lit';

export const crewStyle = css`
  :host {
    display: block;
  }
  section {
    margin-top: var(--space-8);
  }
  section h2 {
    margin-bottom: var(--space-2);
  }
  .files {
    display: flex;
    flex-wrap: wrap;
    gap: var(--space-2) var(--space-3);
    margin-top: var(--space-4);
  }
  .changed {
    margin: var(--space-4) 0;
    padding-left: 1.1em;
  }
  @media print {
    .files {
      display: none;
    }
  }
`;
