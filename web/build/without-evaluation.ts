import type { Plugin } from 'vite';

const PROBE = '@stdlib/assert-has-generator-support';
const ALWAYS = '\0clampwright:generators-are-there';

/**
 * Two functions of @stdlib ask on loading whether the browser knows generators, by evaluating a text. The
 * page's policy refuses that, and the functions would then go another way than on the command line. Every
 * browser this page is built for knows generators, so the answer stands in the build and nothing is
 * evaluated.
 */
export function withoutEvaluation(): Plugin {
  return {
    name: 'clampwright:without-evaluation',
    apply: 'build',
    enforce: 'pre',
    resolveId: (id) => (id === PROBE ? ALWAYS : null),
    // Written as its users ask for it: they are CommonJS.
    load: (id) => (id === ALWAYS ? 'module.exports = function () { return true; };' : null),
  };
}
