import { withBundle } from '../support/bundle.mjs';

const words = process.argv.slice(2);
const wrong = await withBundle('tests/theory/table.ts', ({ theoryTable }) => {
  const counts = theoryTable(words.includes('--short') ? 'short' : 'full', words.includes('--markdown'), (line) => console.log(line));
  return counts.wrong;
});
process.exitCode = wrong === 0 ? 0 : 1;
