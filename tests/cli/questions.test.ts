import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { QUESTIONS, typedCommand } from '../../src/staffing/questions.ts';
import { GRAMMAR, WHAT_IFS } from '../../src/whatif/list.ts';
import { wordsIn } from '../support/shells.ts';
import { clampwright, json, ROOT, widest } from './program.ts';

const readme = readFileSync(join(ROOT, 'README.md'), 'utf8');

describe('the questions', () => {
  it('are 23, and each has a command; the README lists them as the program does', () => {
    expect(QUESTIONS.map((one) => one.number)).toEqual(Array.from({ length: 23 }, (_, at) => at + 1));
    const { code, out } = clampwright(['questions']);
    expect(code).toBe(0);
    expect(widest(out)).toBeLessThanOrEqual(100);
    for (const { number, words, ask } of QUESTIONS) {
      expect(out).toContain(`${number}. ${words}`);
      expect(readme).toContain(`${number}. ${words}`);
      for (const one of ask) expect(readme).toContain(`\`${typedCommand(one)}\``);
    }
  });

  it('are all answered in full', () => {
    expect(readme.toLowerCase()).not.toContain('not answered');
    expect(clampwright(['questions']).out.toLowerCase()).not.toContain('not answered');
  });

  /** Every line below a question in the README, as it stands there. */
  const section = readme.slice(
    readme.indexOf('## How to ask the questions'),
    readme.indexOf('## What-ifs in words'),
  );
  const asked = [...section.matchAll(/^ {3}- `(npx clampwright .*)`$/gm)].map((found) => found[1]!);

  it('are asked without a brace, and every shell reads the same words', () => {
    expect(asked).toEqual(QUESTIONS.flatMap(({ ask }) => ask.map(typedCommand)));
    const words = QUESTIONS.flatMap(({ ask }) => ask.map((one) => ['npx', 'clampwright', ...one]));
    for (const shell of ['sh', 'cmd', 'powershell'] as const)
      expect(asked.map((line) => wordsIn(shell, line))).toEqual(words);
    expect(() => wordsIn('powershell', 'a "b')).toThrow();
    expect(wordsIn('powershell', 'crew --out tova,kofi')).not.toEqual(wordsIn('sh', 'crew --out tova,kofi'));
  });

  it('lean on what-ifs that the README and the help tell as the program does', () => {
    const plain = readme.replace(/\s+/g, ' ');
    const help = clampwright(['run', '--help']).out.replace(/\s+/g, ' ');
    expect(plain).toContain(GRAMMAR);
    for (const { word, takes, says, example } of WHAT_IFS) {
      const line = readme.split('\n').find((one) => one.startsWith(`| \`--${word} `))!;
      expect(line).toContain(`| \`--${word} ${takes}\` | ${says} | \`--${word} `);
      expect(wordsIn('cmd', line.split('`')[3]!)).toEqual([`--${word}`, example]);
      expect(help).toContain(says);
    }
    const told = json<{ whatIfs: { word: string }[] }>(clampwright(['questions', '--json']).out);
    expect(told.whatIfs.map(({ word }) => word)).toEqual(WHAT_IFS.map(({ word }) => word));
  });

  const few: Record<string, string[]> = {
    crew: ['--count', '30', '--search', '300', '--no-absences'],
    log: [],
  };

  it.each(asked)('are answered as typed: %s', (line) => {
    const [, , ...words] = wordsIn('cmd', line);
    const { code, out, err } = clampwright([...words, ...(few[words[0]!] ?? ['--count', '30'])]);
    expect(err).toBe('');
    expect(code).toBe(0);
    expect(out).toMatch(/make|chance|units/);
    if (words.includes('--why'))
      expect(out.replace(/\s+/g, ' ')).toMatch(/As it is: .*(holds? you back|nothing that was tried)/i);
  });
});
