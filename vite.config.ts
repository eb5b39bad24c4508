import { defineConfig } from 'vite';
import { viteSingleFile } from 'vite-plugin-singlefile';
import { inlineWorkers } from './web/build/inline-workers.ts';
import { notices } from './web/build/notices.ts';
import { offlineList } from './web/build/offline-list.ts';
import { OLDEST } from './web/build/oldest.ts';
import { firstWords } from './web/build/first-words.ts';
import { contentPolicy } from './web/build/content-policy.ts';
import { coreModule } from './src/core/compile.mjs';
import { withoutEvaluation } from './web/build/without-evaluation.ts';
import { withoutTransitions } from './web/build/without-transitions.ts';

/**
 * `vite build` makes dist/web, to be served; `vite build --mode single` makes dist/clampwright.html, one file
 * that holds everything, workers and fonts included, and runs from a disk.
 */
export default defineConfig(({ mode }) => {
  const single = mode === 'single';
  const bundled = notices(['@fontsource-variable/public-sans', '@fontsource-variable/vollkorn']);
  return {
    root: 'web',
    base: './',
    publicDir: false,
    build: {
      outDir: single ? '../dist' : '../dist/web',
      emptyOutDir: !single,
      target: OLDEST,
      modulePreload: { polyfill: false },
      reportCompressedSize: false,
      // Fonts stay files in the served build: a font as text is a third larger and is read on every start.
      assetsInlineLimit: single ? 100_000_000 : 0,
      rollupOptions: {
        // A part that several pages share is not named after one module of the many inside it.
        // Licenses stand in the notices, once each, rather than above every function.
        output: {
          comments: false,
          chunkFileNames: ({ facadeModuleId }) =>
            facadeModuleId === null ? 'assets/shared-[hash].js' : 'assets/[name]-[hash].js',
        },
        // What is met there is the policy of a brief to be saved, a text in a script; the page's own is
        // written last (content-policy.ts), and tested.
        onwarn: (warning, warn) => {
          if (!(warning.plugin === 'vite:singlefile' && warning.message.includes('Content-Security-Policy')))
            warn(warning);
        },
      },
    },
    // A page opened from a disk may start a classic worker from a blob, but not a module one.
    worker: {
      format: single ? ('iife' as const) : ('es' as const),
      rollupOptions: { output: { comments: false } },
      plugins: () => [coreModule(), withoutEvaluation(), withoutTransitions(), bundled.listener()],
    },
    optimizeDeps: { include: ['lit', 'lit/decorators.js', 'idb', 'd3', 'zod'] },
    plugins: [
      coreModule(),
      ...(single
        ? [inlineWorkers(), viteSingleFile({ outputFileName: 'clampwright.html' })]
        : [offlineList()]),
      bundled.plugins({ inPage: single }),
      withoutEvaluation(),
      withoutTransitions(),
      firstWords({ single }),
      contentPolicy({ single }),
    ],
  };
});
