import { mkdtempSync, readdirSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { clampwright, json, scenarioFile, widest } from './program.ts';

const QUICK = ['--count', '30'];
const folder = (): string => mkdtempSync(join(tmpdir(), 'brief-'));

describe('the brief', () => {
  it('answers the clamp question as text of at most 100 columns, with everything it owes', () => {
    const { code, out } = clampwright(['brief', ...QUICK]);
    expect(code).toBe(0);
    expect(widest(out)).toBeLessThanOrEqual(100);
    const text = out.replaceAll('\n', ' ');
    expect(text).toMatch(/^What does a third clamp set do at Chair works/);
    expect(text).toMatch(/A third clamp set adds \d\.\d units a shift \(\d\.\d to \d\.\d\)/);
    for (const part of [
      'What it costs',
      'How sure',
      'What would change the answer',
      'Taken for granted',
      'Cautions',
      'clampwright brief scenarios/chair-works.json --more clamp --seed clampwright --count 30',
    ])
      expect(text).toContain(part);
  });

  it('gives the same page again by the command that stands in it', () => {
    const first = clampwright([
      'brief',
      scenarioFile('chair-works'),
      '--options',
      'third-set,cold-shop',
      '--seed',
      'a rainy Monday',
      ...QUICK,
    ]);
    expect(first.code).toBe(0);
    const command = first.out.replaceAll('\n', ' ').split(': clampwright brief ')[1]!.trim();
    const words = [...command.matchAll(/"([^"]*)"|(\S+)/g)].map((found) => found[1] ?? found[2]!);
    expect(clampwright(['brief', ...words]).out).toBe(first.out);
  });

  it('writes Markdown with its picture beside it, HTML that holds everything, and the picture alone', () => {
    const place = folder();
    for (const [format, name] of [
      ['markdown', 'brief.md'],
      ['html', 'brief.html'],
      ['svg', 'alone.svg'],
    ] as const) {
      const { code, out } = clampwright([
        'brief',
        '--limits',
        '--format',
        format,
        '--save',
        join(place, name),
        '--title',
        'For Monday',
        '--notes',
        'Ask the maker.',
        ...QUICK,
      ]);
      expect([code, out]).toEqual([0, '']);
    }
    expect(readdirSync(place).sort()).toEqual(['alone.svg', 'brief-staircase.svg', 'brief.html', 'brief.md']);
    expect(readFileSync(join(place, 'brief.md'), 'utf8')).toMatch(
      /^For Monday\n[\s\S]*!\[[^\]]+\]\(brief-staircase\.svg\)[\s\S]*## Notes\n\nAsk the maker\./,
    );
    expect(readFileSync(join(place, 'brief.html'), 'utf8')).toMatch(
      /<title>For Monday<\/title>[\s\S]*<svg [\s\S]*Ask the maker\./,
    );
    expect(readFileSync(join(place, 'alone.svg'), 'utf8')).toBe(
      readFileSync(join(place, 'brief-staircase.svg'), 'utf8'),
    );
  });

  it('gives its numbers as JSON', () => {
    const { code, out } = clampwright(['brief', '--json', ...QUICK]);
    expect(code).toBe(0);
    const told = json<{
      partial: boolean;
      data: {
        staircase: {
          most: number;
          treads: { change: { estimate: number } }[];
          units: { estimate: number };
        };
      };
    }>(out);
    expect(told.partial).toBe(false);
    const { most, treads, units } = told.data.staircase;
    expect(treads.reduce((sum, { change }) => sum + change.estimate, most)).toBeCloseTo(units.estimate, 9);
  });

  it('says what is wrong with what was typed', () => {
    expect(clampwright(['brief', '--more', 'clmp', ...QUICK])).toMatchObject({
      code: 2,
      err: expect.stringMatching(/no gear "clmp".*Did you mean "clamp"/s) as string,
    });
    expect(clampwright(['brief', '--options', 'nothing', ...QUICK])).toMatchObject({
      code: 2,
      err: expect.stringMatching(/no option "nothing"/) as string,
    });
    expect(clampwright(['brief', '--limits', '--more', 'clamp', ...QUICK]).code).toBe(2);
    expect(clampwright(['brief', '--format', 'svg', ...QUICK])).toMatchObject({
      code: 2,
      err: expect.stringMatching(/--save brief\.svg/) as string,
    });
    expect(
      clampwright(['brief', '--save', join(folder(), 'missing', 'brief.html'), '--format', 'html', ...QUICK]),
    ).toMatchObject({ code: 2, err: expect.stringMatching(/There is no folder .*missing/) as string });
  });
});
