// `npm run coverage`, with `-- --markdown` as tables, kept in tests/results/coverage.md; `-- 200` repeats as
// often as that.
import { withBundle } from '../support/bundle.mjs';
import { resultsOf } from '../support/results.mjs';

const words = process.argv.slice(2);
const repeats = Number(words.find((word) => /^\d+$/.test(word)) ?? 1000);
const markdown = words.includes('--markdown');
const results = resultsOf(
  {
    name: 'coverage',
    title: 'How often the printed ranges hold the truth',
    command: 'npm run coverage -- --markdown',
    keep: markdown,
  },
  // Of `npm run hidden-shops`.
  ['## Hidden shops', "## The crew's promise", "## Now's fan"],
);
const good = await withBundle('tests/ranges/measure.ts', ({ coverageTable }) =>
  coverageTable(repeats, 400_000, markdown, results.print),
);
results.write();
process.exitCode = good ? 0 : 1;
