import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import type { Plugin } from 'vite';

const SOURCE = new URL('../begin/first-words.js', import.meta.url);
const PLACE = '<!-- first words -->';

/**
 * Puts begin/first-words.js in front of everything else, as it is written: a file of its own where the page
 * is served (its policy lets no script into the page itself), within the page where all is one file.
 */
export function firstWords({ single }: { single: boolean }): Plugin {
  const code = readFileSync(SOURCE, 'utf8');
  const name = `assets/first-words-${createHash('sha256').update(code).digest('hex').slice(0, 8)}.js`;
  return {
    name: 'clampwright:first-words',
    buildStart() {
      if (this.environment.mode === 'build' && !single)
        this.emitFile({ type: 'asset', fileName: name, source: code });
    },
    transformIndexHtml: {
      order: 'post',
      handler(html, context) {
        const tag =
          context.server !== undefined || single
            ? `<script>${code}</script>`
            : `<script src="./${name}"></script>`;
        return html.replace(PLACE, () => tag);
      },
    },
  };
}
