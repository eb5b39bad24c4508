import type { Plugin } from 'vite';

/**
 * Of d3 a page takes what it imports. d3-transition says of itself that it does something when it loads (it
 * adds to d3's selections), and so would come along into the single file although no page has a transition.
 */
export function withoutTransitions(): Plugin {
  return {
    name: 'clampwright:without-transitions',
    apply: 'build',
    transform: {
      filter: { id: /[\\/]d3-transition[\\/]/ },
      handler: (code) => ({ code, moduleSideEffects: false }),
    },
  };
}
