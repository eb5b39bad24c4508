// `npm run times-coverage`, with `-- --markdown` as a table, kept in tests/results/times-coverage.md; `--
// 100` takes so many hidden shops.
import { withBundle } from '../support/bundle.mjs';
import { resultsOf } from '../support/results.mjs';

const words = process.argv.slice(2);
const shops = Number(words.find((word) => /^\d+$/.test(word)) ?? 500);
const markdown = words.includes('--markdown');
const results = resultsOf({
  name: 'times-coverage',
  title: 'Shops whose true times are hidden',
  command: 'npm run times-coverage -- --markdown',
  keep: markdown,
});
const good = await withBundle('tests/times-coverage/measure.ts', ({ timesCoverageTable }) =>
  timesCoverageTable(shops, markdown, results.print),
);
results.write();
process.exitCode = good ? 0 : 1;
