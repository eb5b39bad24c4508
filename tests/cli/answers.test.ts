import { describe, expect, it } from 'vitest';
import { clampwright, json, scenarioFile, spawned, widest } from './program.ts';

const QUICK = ['--count', '40'];
/** For what holds of any answer, however sure. */
const SHORT = ['--count', '12'];

const ANSWERS: [string, string[]][] = [
  ['run', ['run', ...SHORT]],
  ['run of a day of three shifts', ['run', scenarioFile('door-works'), ...SHORT]],
  ['run with an option', ['run', '--option', 'overtime-45', ...SHORT]],
  ['compare', ['compare', ...SHORT]],
  ['one-more', ['one-more', ...SHORT]],
  ['one-more of another gear', ['one-more', scenarioFile('door-works'), '--gear', 'rest-slot', ...SHORT]],
  ['limits', ['limits', ...SHORT]],
  ['check', ['check', scenarioFile('door-works')]],
  ['start without serving', ['start', '--no-serve', ...SHORT]],
];

describe('answers on the terminal', () => {
  it.each(ANSWERS)('fit 100 columns, carry their cautions and end well: %s', (_, words) => {
    const { code, out } = clampwright(words);
    expect(code).toBe(0);
    expect(widest(out)).toBeLessThanOrEqual(100);
    expect(widest(out)).toBeGreaterThan(60);
    const flat = out.replaceAll('\n', ' ');
    expect(flat).toMatch(/the adhesive's data sheet rules/i);
    expect(flat).toMatch(/a forecast, not a promise[;,] (and )?never for ranking people/i);
    expect(out).not.toMatch(/NaN|Infinity|undefined|\[object/);
  });

  it('say their cautions in a sentence, once, and in full with their sources where that is asked for', () => {
    const words = ['run', ...QUICK, '--no-why'];
    const short = clampwright(words).out;
    expect(short.split('Cautions\n')[1]!.split('\n\n')[1]!.split('\n').length).toBeLessThanOrEqual(6);
    expect(short).not.toMatch(/2002\/44\/EC/);
    const full = clampwright([...words, '--cautions']).out;
    expect(full).toMatch(/2002\/44\/EC/);
    expect(full.split('Cautions\n')[0]!.replace(/Worth a look[^]*/, '')).toBe(
      short.split('Cautions\n')[0]!.replace(/Worth a look[^]*/, ''),
    );
  });

  it('open with what nine, five and one shift in ten make, and the chance of the target with its range', () => {
    const { out } = clampwright(['run', ...QUICK]);
    const answer = out.split('\n\n')[1]!.replaceAll('\n', ' ');
    expect(answer).toMatch(
      /^Nine shifts in ten make \d+, half make \d+, one in ten makes \d+\. The chance of 22 is (under )?\d+% (\(.+ to \d+%\)|as far as your times are known; better timings may put it anywhere from .+ to \d+%)\./,
    );
    expect(out.replaceAll('\n', ' ')).toMatch(
      /The number of clamp sets holds you back\. One more clamp set adds \d\.\d+ units a shift/,
    );
  });

  it('show the clamp set waiting for hands in a line of its own', () => {
    const { out } = clampwright(['run', '--no-why', ...QUICK]);
    expect(out).toMatch(/^waiting for hands: unclamp is next +\d+ \(\d+%\)$/m);
    expect(out).toMatch(/^cure +\d+ \(\d+%\)$/m);
  });

  it('say why each person was without work', () => {
    const { out } = clampwright(['run', '--no-why', ...QUICK]);
    expect(out).toMatch(/^Orla .*nowhere to put it \d+/m);
    expect(out).toMatch(/^Kofi .*nothing to work on \d+/m);
  });

  it('say where they come from, and the command in them gives the same answer again', () => {
    const first = clampwright([
      'run',
      scenarioFile('chair-works'),
      '--no-why',
      '--seed',
      'a rainy Monday',
      '--count',
      '50',
      '--clamp',
      '3',
      '--break',
      'meal break=+15',
      '--with',
      '{"gear":{"clamp":{"count":4}}}',
    ]);
    expect(first.out).toMatch(/^Seed: a rainy Monday$/m);
    expect(first.out).toMatch(/^Version: clampwright \d+\.\d+\.\d+$/m);
    const command = first.out
      .slice(first.out.indexOf('Command: clampwright') + 'Command: clampwright '.length)
      .replaceAll('\n', ' ')
      .trim();
    const words = [...command.matchAll(/'([^']*)'|"([^"]*)"|(\S+)/g)].map(
      (found) => found[1] ?? found[2] ?? found[3]!,
    );
    expect(clampwright(words).out).toBe(first.out);
  });

  it('say that the shop is invented and that no file was named', () => {
    expect(clampwright(['run', '--no-why', ...QUICK]).out.replaceAll('\n', ' ')).toMatch(
      /No file was named, so this is the demo shop .*Its people and figures are invented\./,
    );
  });

  it('put the caution on long hours only where there is overtime', () => {
    expect(clampwright(['run', '--no-why', ...QUICK]).out).not.toMatch(/long\s+hours\s+hurt/i);
    expect(clampwright(['run', '--no-why', '--option', 'overtime-45', ...QUICK]).out).toMatch(
      /long\s+hours\s+hurt/i,
    );
    expect(clampwright(['compare', '--options', 'overtime-45', ...QUICK]).out).toMatch(
      /long\s+hours\s+hurt/i,
    );
  });
});

describe('the clamp question', () => {
  const { code, out } = clampwright(['one-more']);
  const text = out.replaceAll('\n', ' ');

  it('is answered for the demo shop: the third set removes the constraint, the fourth adds little, fitting holds back then', () => {
    expect(code).toBe(0);
    expect(text).toMatch(
      /A third clamp set removes the constraint\. A third clamp set adds 3\.\d units a shift \(\d\.\d to \d\.\d\)\./,
    );
    expect(text).toMatch(/A fourth then adds less than the 0\.5 units a shift that matter/);
    expect(text).toMatch(/Then “fit” \(Orla’s hands and bench\)( holds you back|.* hold you back alike)\./);
  });

  it('comes with the runs behind it, how sure it is, and what averages would have said', () => {
    expect(text).toMatch(
      /From \d+ shifts of each choice, the same luck for all: known to within \d\.\d+ units a shift, 95% sure of each range: the runs leave 0\.\d+ open, your times and shares of rework \d\.\d+\./,
    );
    expect(out).toMatch(/^Clamp sets by the cure alone +32\.\d +49\.\d/m);
    expect(out).toMatch(/^What the shifts made, on average +19\.\d +23\.\d/m);
  });
});

describe('--json', () => {
  it.each(ANSWERS.filter(([, words]) => words[0] !== 'start'))(
    'gives one document that says its command and version: %s',
    (_, words) => {
      const { code, out } = clampwright([...words, '--json']);
      expect(code).toBe(0);
      const document = json<{ command: string; version: string; cautions: { topic: string }[] }>(out);
      expect(document.command).toBe(words[0]);
      expect(document.version).toMatch(/^\d+\.\d+\.\d+$/);
      expect(document.cautions.map((one) => one.topic)).toContain('cure');
    },
  );

  it('holds the figures of the text', () => {
    const document = json<{
      verdict: { kind: string };
      gain: { estimate: number };
      study: { count: number; pairs: unknown[] };
      then: { constraint: string[] };
    }>(clampwright(['one-more', '--count', '60', '--json']).out);
    expect(document.verdict).toEqual({ kind: 'removes' });
    expect(document.gain.estimate).toBeGreaterThan(3);
    expect(document.study.pairs).toHaveLength(2);
    expect(document.then.constraint[0]).toBe('“fit” (Orla’s hands and bench)');
  });
});

describe('the same answer', () => {
  // Three and eight threads take the same shifts in other stretches (tests/work/threads.test.ts has more).
  it.each([
    ['8', ['run', '--no-why', '--count', '67']],
    ['3', ['compare', '--options', 'third-set,cold-shop', '--precision', '0.3']],
  ])('comes out bit for bit on one and on %s threads: %j', (threads, words) => {
    const one = clampwright([...words, '--json']).out;
    expect(one).toMatch(/"kind": "final"/);
    expect(spawned([...words, '--threads', threads, '--json']).out === one).toBe(true);
  });

  it('is another one under another seed', () => {
    const of = (seed: string): unknown =>
      json<{ study: { cases: { spread: unknown }[] } }>(
        clampwright(['run', '--no-why', '--count', '50', '--seed', seed, '--json']).out,
      ).study.cases[0]!.spread;
    expect(of('a')).toEqual(of('a'));
    expect(of('a')).not.toEqual(of('b'));
  });
});
