/**
 * Lets node's compiler put more of a run into one piece. A run is many small functions that call each other;
 * the limit that V8 sets for such merging (920 bytes of its own code) was made for pages and leaves most of
 * them as calls: cell K runs an eighth to a fifth faster with a wider one (`npm run bench -- --plain`
 * measures without). It changes no result. Imported for its effect, by whatever runs jobs in node.
 */
import { setFlagsFromString } from 'node:v8';

setFlagsFromString('--max-inlined-bytecode-size-cumulative=5000');
