/** Shards of choices put together write the files that compare writes, to the byte. */
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { clampwright, ROOT, type Ended } from '../cli/program.ts';

const folder = mkdtempSync(join(tmpdir(), 'clampwright-shard-files-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const at = (name: string): string => join(folder, name);
const fine = (words: string[]): Ended => {
  const ended = clampwright([...words, '--threads', '1']);
  expect(ended.code, ended.err).toBe(0);
  return ended;
};

test('merge writes the picture and the table of compare, the table of grid, and of no other question', () => {
  const asked = [join(ROOT, 'tests/shops/frame-works.json'), '--times-known'];
  const rows = ['rows', 'compare', ...asked, '--options', 'bigger-rack'];
  fine([...rows, '--from', '0', '--count', '7', '--save', at('0.parquet')]);
  fine([...rows, '--from', '7', '--count', '23', '--save', at('7.parquet')]);
  const files = (name: string): string[] => ['--picture', at(`${name}.svg`), '--table', at(`${name}.csv`)];
  const parts = fine(['merge', at('7.parquet'), at('0.parquet'), ...files('parts')]);
  const whole = ['compare', ...asked, '--options', 'bigger-rack', '--count', '30'];
  expect(parts.out).toBe(fine([...whole, ...files('whole')]).out);
  for (const ending of ['svg', 'csv']) {
    const written = readFileSync(at(`parts.${ending}`), 'utf8');
    expect(written.length).toBeGreaterThan(200);
    expect(written).toBe(readFileSync(at(`whole.${ending}`), 'utf8'));
  }
  const grid = [...asked, '--across', 'frame-clamp=2..3', '--down', 'rack:lay-up=2..3'];
  fine(['rows', 'grid', ...grid, '--count', '30', '--save', at('grid.parquet')]);
  const merged = fine(['merge', at('grid.parquet'), '--table', at('merged.csv')]);
  expect(merged.out).toBe(fine(['grid', ...grid, '--count', '30', '--table', at('grid.csv')]).out);
  const table = readFileSync(at('grid.csv'), 'utf8');
  expect(table.trim().split('\n')).toHaveLength(1 + 4);
  expect(readFileSync(at('merged.csv'), 'utf8')).toBe(table);
  fine(['rows', 'run', ...asked, '--no-why', '--count', '3', '--save', at('run.parquet')]);
  const { code, err } = clampwright(['merge', at('run.parquet'), ...files('none')]);
  expect(code).toBe(2);
  expect(err.replace(/\s+/g, ' ')).toContain('--picture takes shards of compare. These are of run.');
});
