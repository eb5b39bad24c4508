import type { Plugin } from 'vite';

/**
 * In the single file every worker travels inside the page: `./x.ts?worker` is read as `./x.ts?worker&inline`.
 * Code that starts a worker is the same in both builds: `import Maker from './x.ts?worker'; new Maker()`.
 */
export function inlineWorkers(): Plugin {
  return {
    name: 'clampwright:inline-workers',
    enforce: 'pre',
    async resolveId(id, importer) {
      if (!/[?&]worker(&|$)/.test(id) || /[?&]inline(&|$)/.test(id)) return null;
      return this.resolve(`${id}&inline`, importer, { skipSelf: true });
    },
  };
}
