import type { Plugin } from 'vite';

/** The bytes of the core in WebAssembly; `checked`: with bounds checked, for tests. */
export function compiledCore(options?: { checked?: boolean }): Promise<Uint8Array>;
/** For vite: `virtual:core` is the module's bytes as text. */
export function coreModule(): Plugin;
