import { spawnSync } from 'node:child_process';
import { describe, expect, it } from 'vitest';
import { WHAT_IFS } from '../../src/whatif/list.ts';
import { clampwright } from './program.ts';

const bash = clampwright(['completion', 'bash']).out;

/** What bash offers behind these words. */
function offered(...words: string[]): string[] {
  const line = words.map((word) => `"${word}"`).join(' ');
  const script = `${bash}\nCOMP_WORDS=(${line}); COMP_CWORD=$((\${#COMP_WORDS[@]} - 1)); _clampwright; printf '%s\\n' "\${COMPREPLY[@]}"`;
  const { status, stdout, stderr } = spawnSync('bash', ['-c', script], { encoding: 'utf8' });
  expect(stderr).toBe('');
  expect(status).toBe(0);
  return stdout.trim().split('\n');
}

describe('completion', () => {
  it('offers the commands, the options of each, and those of a command within one', () => {
    expect(offered('clampwright', 'co')).toEqual(['compare', 'completion']);
    const options = offered('clampwright', 'compare', '--');
    expect(options).toEqual(
      expect.arrayContaining(['--why', '--json', ...WHAT_IFS.map(({ word }) => `--${word}`)]),
    );
    expect(offered('clampwright', 'log', 'why', '--ou')).toEqual(['--out']);
    expect(offered('clampwright', 'log', 'wh')).toEqual(['why']);
    expect(offered('clampwright', 'run', 'package.j')).toEqual(['package.json']);
  });

  it('has the same for zsh and fish', () => {
    expect(clampwright(['completion', 'zsh']).out).toContain(bash);
    const fish = clampwright(['completion', 'fish']).out;
    for (const line of fish.trim().split('\n').slice(1))
      expect(line).toMatch(
        /^complete -c clampwright -n '[a-z_;\- ]+' (-a '[a-z-]+'|-l '[a-z-]+'( -s '[a-zA-Z]')?( -r)?) -d '[^']*'$/,
      );
    expect(clampwright(['completion', 'powershell']).code).toBe(2);
  });
});
