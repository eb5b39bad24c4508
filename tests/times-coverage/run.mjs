// `npm run times-coverage`, with `-- --markdown` as a table for DEVELOPERS.md; `-- 100` takes so many hidden
// shops.
import { withBundle } from '../support/bundle.mjs';

const words = process.argv.slice(2);
const shops = Number(words.find((word) => /^\d+$/.test(word)) ?? 500);
const good = await withBundle('tests/times-coverage/measure.ts', ({ timesCoverageTable }) =>
  timesCoverageTable(shops, words.includes('--markdown'), (line) => console.log(line)),
);
process.exitCode = good ? 0 : 1;
