import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { marked, type Token } from 'marked';
import { afterAll, describe, expect, it } from 'vitest';
import { checkScenario } from '../../src/scenario/check.ts';
import { mergePatch } from '../../src/scenario/merge-patch.ts';
import { wordsIn } from '../support/shells.ts';
import { clampwright, ROOT } from './program.ts';

const folder = mkdtempSync(join(tmpdir(), 'clampwright-readme-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const tokens = marked.lexer(readFileSync(join(ROOT, 'README.md'), 'utf8'));
const blocks = (language: string): string[] =>
  tokens.flatMap((token: Token) =>
    token.type === 'code' && token['lang'] === language ? [token['text'] as string] : [],
  );
describe('the README', () => {
  it('says in its first paragraph what the job is, and then the two commands', () => {
    const [, paragraph, commands] = tokens.filter((token) => token.type !== 'space');
    expect(paragraph).toMatchObject({ type: 'paragraph' });
    expect(paragraph!.raw).toMatch(/joint-fitting and glue-up cell/);
    expect(commands).toMatchObject({ type: 'code', text: 'npm ci && npm start' });
  });

  const commands = blocks('sh').flatMap((text) => text.split('\n'));
  it.each(commands)('gives a command that works: %s', (line) => {
    const [npx, name, ...rest] = wordsIn('cmd', line);
    expect([npx, name]).toEqual(['npx', 'clampwright']);
    const { code, out } = clampwright(rest);
    expect(code).toBe(0);
    expect(out.length).toBeGreaterThan(100);
  });

  it('names every command of the program, and none it does not have', () => {
    const help = clampwright(['--help']).out;
    const had = [...help.matchAll(/^ {2}([a-z][a-z-]*)(?: \[options\])?(?: [[<]| {2,})/gm)]
      .map((found) => found[1]!)
      .filter((name) => name !== 'help');
    const table = tokens.find((token) => token.type === 'table') as
      { rows: { text: string }[][] } | undefined;
    expect(table!.rows.map((row) => row[0]!.text.replaceAll('`', '')).sort()).toEqual(
      [...new Set(had)].sort(),
    );
  });

  it('builds up a file by example that is fine at every stage and runs at the end', () => {
    const stages = blocks('json');
    expect(stages.length).toBeGreaterThan(3);
    let file: unknown = {};
    for (const stage of stages) {
      file = mergePatch(file, JSON.parse(stage));
      const reading = checkScenario(file);
      expect(reading.kind === 'wrong' ? reading.faults.map((fault) => fault.text) : []).toEqual([]);
    }
    const path = join(folder, 'mine.json');
    writeFileSync(path, JSON.stringify(file));
    const { code, out } = clampwright(['compare', path, '--count', '40']);
    expect(code).toBe(0);
    expect(out).toMatch(/- A fourth clamp set /);
    expect(out).toMatch(/- With “Ben calls out”, /);
  });

  it('points to files that are there', () => {
    const links = [...readFileSync(join(ROOT, 'README.md'), 'utf8').matchAll(/\]\(([^)#:]+)\)/g)].map(
      (found) => found[1]!,
    );
    expect(links).toContain('DEVELOPERS.md');
    for (const link of links) expect(existsSync(join(ROOT, link))).toBe(true);
  });
});
