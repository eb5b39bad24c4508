import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import type { Plugin } from 'vite';

const WORKER = new URL('../offline/service-worker.js', import.meta.url);

/**
 * Writes service-worker.js beside the built page, with the list of every built file and a version made of
 * their contents.
 */
export function offlineList(): Plugin {
  return {
    name: 'clampwright:offline-list',
    apply: 'build',
    enforce: 'post',
    generateBundle: {
      order: 'post',
      handler(_options, bundle) {
        const hash = createHash('sha256');
        const files = Object.values(bundle).sort((a, b) => (a.fileName < b.fileName ? -1 : 1));
        for (const file of files)
          hash.update(file.fileName).update(file.type === 'chunk' ? file.code : file.source);
        const list = [
          './',
          ...files.map((file) => `./${file.fileName}`).filter((name) => !name.endsWith('.map')),
        ];
        const source = readFileSync(WORKER, 'utf8')
          .replace("'VERSION'", JSON.stringify(hash.digest('hex').slice(0, 16)))
          .replace("['FILES']", JSON.stringify(list));
        this.emitFile({ type: 'asset', fileName: 'service-worker.js', source });
      },
    },
  };
}
