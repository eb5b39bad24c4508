import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { defaultsOfFile } from './file-defaults.mjs';

const here = fileURLToPath(new URL('fills-in-defaults.ts', import.meta.url));

describe('the rule that defaults are filled in once', () => {
  it('finds every form a default can take, and nothing else', () => {
    const found = defaultsOfFile([here], (file) => file.endsWith('fills-in-defaults.ts'));
    expect(found.map((line) => line.replace(/^.*?: /, ''))).toEqual([
      "seed = 'other'",
      "scenario.shift?.start ?? '07:00'",
      "scenario.products?.['leaf']?.factors?.['sand'] ?? 1",
      "scenario.money?.currency || '€'",
    ]);
  });
});
