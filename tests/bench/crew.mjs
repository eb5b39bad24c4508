// How planning a crew grows: `node tests/bench/crew.mjs`, after `npm run build` (it runs shifts on the built
// threads).
import { withBundle } from '../support/bundle.mjs';

const entry = new URL('../../dist/cli/thread.js', import.meta.url);
await withBundle('tests/bench/crew-entry.ts', ({ run }) => run(entry, (line) => console.log(line)));
