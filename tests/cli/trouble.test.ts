import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { clampwright, stoppedUnderWay, json, scenarioFile, widest } from './program.ts';

const folder = mkdtempSync(join(tmpdir(), 'clampwright-cli-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function fileWith(text: string, name = 'cell.json'): string {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
}

const chair = (): Record<string, Record<string, Record<string, unknown>>> =>
  JSON.parse(readFileSync(scenarioFile('chair-works'), 'utf8')) as Record<
    string,
    Record<string, Record<string, unknown>>
  >;

describe('a wrong scenario ends with code 1', () => {
  it('and says the place, what was found, what is allowed and the likely remedy', () => {
    const wrong = chair();
    wrong['people']!['orla']!['covers'] = ['fti'];
    const { code, out, err } = clampwright(['run', fileWith(JSON.stringify(wrong))]);
    expect(code).toBe(1);
    expect(out).toBe('');
    expect(err).toMatch(
      /Orla, covers, no\. 1: found the unknown step "fti"; allowed: a step of this file: stage, fit,/,
    );
    expect(widest(err)).toBeLessThanOrEqual(100);
  });

  it.each(['run', 'compare', 'one-more', 'limits', 'record', 'check'])(
    'whatever the command: %s',
    (command) => {
      const { code, err } = clampwright([command, fileWith('{ "format": 1, "name": "x", }')]);
      expect(code).toBe(1);
      expect(err).toMatch(/line 1, column \d+/);
    },
  );

  it('and gives the faults as one JSON document where that is asked for', () => {
    const { code, out } = clampwright([
      'check',
      fileWith('{ "format": 2, "name": "x", "steps": {}, "people": {} }'),
      '--json',
    ]);
    expect(code).toBe(1);
    const document = json<{
      kind: string;
      faults: { path: string; found: string; allowed: string; remedy: string }[];
    }>(out);
    expect(document.kind).toBe('wrong');
    expect(document.faults.map((fault) => fault.path)).toContain('format');
    expect(
      document.faults.every(({ found, allowed, remedy }) => found !== '' && allowed !== '' && remedy !== ''),
    ).toBe(true);
  });

  it('where only the changes asked for make it wrong', () => {
    const { code, err } = clampwright([
      'run',
      '--with',
      '{"steps":{"glue":{"takes":[{"gear":"clmp","until":"unclamp"}]}}}',
    ]);
    expect(code).toBe(1);
    expect(err).toMatch(
      /Step “glue and clamp”, takes, no\. 1, gear: found the unknown kind of gear "clmp"; [\s\S]*did you mean "clamp"\?/,
    );
  });

  it('where a shift would never end', () => {
    const endless = {
      format: 1,
      name: 'Round and round',
      people: { ada: { covers: ['fit', 'check'] } },
      intake: { kind: 'at start', units: 3 },
      steps: { fit: { time: 0 }, check: { time: 0, rework: [{ to: 'fit', percent: 100 }] } },
    };
    const { code, err } = clampwright(['run', fileWith(JSON.stringify(endless)), '--count', '2']);
    expect(code).toBe(1);
    expect(err.length).toBeGreaterThan(40);
  });
});

describe('a wrong command line ends with code 2', () => {
  it.each([
    ['no such command', ['rnu'], /run/],
    ['no such word', ['run', '--cuont', '5'], /--count/],
    ['no number', ['run', '--count', 'many'], /whole number from 2/],
    ['half a thread', ['run', '--threads', '1.5'], /whole number from 1/],
    ['no precision', ['run', '--precision', '0'], /over 0/],
    ['both ways of stopping', ['run', '--precision', '0.5', '--count', '50'], /--count/],
    ['no such option', ['run', '--option', 'third-sett'], /Did you mean "third-set"\?/],
    [
      'no such option to compare',
      ['compare', '--options', 'third-set,forth-set'],
      /Did you mean "fourth-set"\?/,
    ],
    ['no such gear', ['one-more', '--gear', 'clmap'], /it has clamp/],
    ['no such file', ['run', 'nowhere/cell.json'], /There is no file nowhere\/cell\.json/],
    ['a folder', ['run', 'scenarios'], /is a folder/],
    ['changes that are no JSON', ['run', '--with', 'gear.clamp.count=3'], /--with takes changes as JSON/],
    [
      'a word that is a gear of no file',
      ['run', '--clmp', '3'],
      /no gear of that name; the file has clamp\. Did you mean --clamp\?/,
    ],
    ['a misspelt word', ['run', '--overtme', '45'], /Did you mean --overtime\?/],
    [
      'a what-if without its time',
      ['run', '--move', 'bastian=clean'],
      /--move takes .* such as .*has no time behind @/,
    ],
    ['a join without an end', ['compare', '--clamp', '3', '--and'], /--and stands between two what-ifs/],
    ['nothing to compare', ['compare', scenarioFile('one-step')], /has no options to compare/],
    ['nothing to have more of', ['one-more', scenarioFile('one-step')], /has no gear/],
  ])('and says what would do: %s', (_, words, hint) => {
    const { code, out, err } = clampwright(words);
    expect(code).toBe(2);
    expect(out).toBe('');
    expect(err.replaceAll('\n', ' ')).toMatch(hint);
  });

  it('and a file that cannot be written is said to be so', () => {
    const { code, err } = clampwright(['record', '--save', join(folder, 'no', 'such', 'folder.csv')]);
    expect(code).toBe(2);
    expect(err.replaceAll('\n', ' ')).toMatch(/There is no folder .*such\. Make it first, or name another/);
  });
});

describe('help', () => {
  it('ends with code 0, fits 100 columns and names the exit codes', () => {
    const { code, out } = clampwright(['--help']);
    expect(code).toBe(0);
    expect(widest(out)).toBeLessThanOrEqual(100);
    expect(out).toMatch(/Exit codes: 0 fine; 1 the scenario is wrong; 2 the command line is wrong/);
  });

  it.each(['run', 'compare', 'one-more', 'limits', 'record', 'check', 'schema', 'start'])(
    'of %s says what each word does',
    (command) => {
      const { code, out } = clampwright([command, '--help']);
      expect(code).toBe(0);
      expect(out).toMatch(new RegExp(`^Usage: clampwright ${command}`));
      expect(widest(out)).toBeLessThanOrEqual(100);
    },
  );
});

describe('Ctrl-C', () => {
  it('once leaves the answer so far, marked partial, without a verdict', async () => {
    const { code, out, err } = await stoppedUnderWay(
      ['one-more', '--count', '1000000', '--threads', '2'],
      (ended) => !ended.out.includes('before a single shift'),
    );
    expect(code).toBe(5);
    expect(err).toMatch(/Stopping; the answer so far follows/);
    expect(out).toMatch(/PARTIAL/);
    expect(out.replaceAll('\n', ' ')).toMatch(/This may still change/);
    expect(out).not.toMatch(/removes the constraint/);
    expect(out.replaceAll('\n', ' ')).toMatch(/a forecast, not a promise/i);
  });

  it('once marks the JSON partial, and so many shifts give the same figures', async () => {
    const { out } = await stoppedUnderWay(
      ['run', '--no-why', '--times-known', '--count', '1000000', '--threads', '2', '--json'],
      (ended) => json<{ study: { count: number } }>(ended.out).study.count > 1,
    );
    const partial = json<{
      partial: boolean;
      study: { kind: string; count: number; cases: { spread: unknown }[] };
    }>(out);
    expect(partial.partial).toBe(true);
    expect(partial.study.kind).toBe('partial');
    expect(partial.study.count).toBeGreaterThan(1);
    const again = json<typeof partial>(
      clampwright(['run', '--no-why', '--times-known', '--count', String(partial.study.count), '--json']).out,
    );
    expect(again.partial).toBe(false);
    expect(again.study.cases[0]!.spread).toEqual(partial.study.cases[0]!.spread);
  });
});
