// `npm run coverage`, with `-- --markdown` as tables for DEVELOPERS.md; `-- 200` repeats as often as that.
import { withBundle } from '../support/bundle.mjs';

const words = process.argv.slice(2);
const repeats = Number(words.find((word) => /^\d+$/.test(word)) ?? 1000);
const good = await withBundle('tests/ranges/measure.ts', ({ coverageTable }) =>
  coverageTable(repeats, 400_000, words.includes('--markdown'), (line) => console.log(line)),
);
process.exitCode = good ? 0 : 1;
