// `npm run builds`: the core as WebAssembly and as plain JavaScript over a thousand generated cells; the same
// bits of every row and every fact. `-- 5000` for as many as one likes.
import { withBundle } from '../../support/bundle.mjs';

const count = Number(process.argv[2] ?? 1000);
await withBundle('tests/engine/builds/told.ts', ({ generatedDays, printsBy }) => {
  const days = generatedDays(count);
  const wasm = printsBy('WebAssembly', days).prints;
  const plain = printsBy('JavaScript', days).prints;
  const wrong = days.filter((_, i) => wasm[i] !== plain[i]).length;
  console.log(`${count} generated cells: ${count - wrong} told alike by both builds, ${wrong} not`);
  if (wrong > 0 || new Set(wasm).size < count / 2) process.exitCode = 1;
});
