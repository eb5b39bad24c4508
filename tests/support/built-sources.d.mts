import type { Plugin } from 'vite';

export function buildSources(): Promise<string>;
export function builtSources(folder: string): Plugin;
