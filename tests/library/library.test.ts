/** The library as others use it: packed, installed into an empty project, in node and out of a bundler. */
import { spawnSync } from 'node:child_process';
import {
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { runInNewContext } from 'node:vm';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import ts from 'typescript';
import { build } from 'vite';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { checkScenario } from '../../src/scenario/check.ts';
import { comparison } from '../../src/study/from-scenario.ts';
import { runStudy } from '../../src/study/study.ts';
import { summarize } from '../../src/study/summary.ts';
import * as library from '../../src/library/index.ts';
import { inLineRunner } from '../../src/work/in-line.ts';

const here = (path: string): string => fileURLToPath(new URL(path, import.meta.url));
const PACKAGE = here('../../dist/library');
const K = here('../../scenarios/cell-k.json');
const text = readFileSync(K, 'utf8');
if (!existsSync(PACKAGE)) throw new Error('the library is not built: npm run build');

const project = mkdtempSync(join(tmpdir(), 'clampwright-library-'));
afterAll(() => rmSync(project, { recursive: true, force: true }));

const run = (command: string, words: string[]): string => {
  const { status, stdout, stderr } = spawnSync(command, words, { cwd: project, encoding: 'utf8' });
  expect(status, stderr).toBe(0);
  return stdout;
};

const scenarioOf = (source: string): library.Scenario => {
  const reading = library.readScenario(source);
  if (reading.kind === 'wrong') throw new Error(reading.faults[0]!.text);
  return reading.scenario;
};

describe('The package', () => {
  beforeAll(() => {
    run('npm', ['pack', '--silent', PACKAGE]);
    const { version } = JSON.parse(readFileSync(join(PACKAGE, 'package.json'), 'utf8')) as {
      version: string;
    };
    writeFileSync(join(project, 'package.json'), '{"name":"empty","private":true,"type":"module"}');
    run('npm', [
      'install',
      '--silent',
      '--offline',
      '--no-audit',
      '--no-fund',
      `./clampwright-${version}.tgz`,
    ]);
    cpSync(here('example/study.mjs'), join(project, 'study.mjs'));
  });

  test('installs into an empty project without anything else, and its example works in node', () => {
    const lines = run(process.execPath, ['study.mjs', K]).trim().split('\n');
    expect(lines).toHaveLength(3);
    // The reference cell makes 16.634 and 20.480 with a third set, by two independent programs.
    expect(Number(/: ([\d.]+) a shift/.exec(lines[0]!)![1])).toBeCloseTo(16.634, 0);
    const [low, high] = /: ([\d.]+) to ([\d.]+) more/.exec(lines[1]!)!.slice(1).map(Number) as [
      number,
      number,
    ];
    expect(low).toBeLessThan(20.48 - 16.634);
    expect(high).toBeGreaterThan(20.48 - 16.634);
    expect(lines[2]).toMatch(/^the most: /);
  });

  test('runs the lines of the README', () => {
    const readme = readFileSync(here('../../README.md'), 'utf8');
    const lines = /```js\n(import [^`]*'clampwright'[^`]*)```/.exec(readme)![1]!;
    const read = `import { readFileSync } from 'node:fs';\nconst text = readFileSync(process.argv[2], 'utf8');\n`;
    writeFileSync(join(project, 'readme.mjs'), read + lines);
    const [nineInTen, low, high] = run(process.execPath, ['readme.mjs', K]).trim().split(' ').map(Number);
    expect(nineInTen).toBeGreaterThan(10);
    expect(low).toBeLessThan(20.48 - 16.634);
    expect(high).toBeGreaterThan(20.48 - 16.634);
  });

  test('has types that a strict program compiles against, and that refuse what is wrong', () => {
    const begin = `import { readScenario, runStudy, type Study } from 'clampwright';
      const reading = readScenario('{}');
      export const study: Promise<Study> | null =`;
    const uses = {
      'right.ts': `${begin} reading.kind === 'fine' ? runStudy(reading.scenario, { count: 30 }) : null;`,
      'unchecked.ts': `${begin} runStudy(reading.scenario);`,
      'unknown.ts': `${begin} reading.kind === 'fine' ? runStudy(reading.scenario, { shifts: 30 }) : null;`,
    };
    const files = Object.entries(uses).map(([name, source]) => {
      writeFileSync(join(project, name), source);
      return join(project, name);
    });
    const program = ts.createProgram(files, {
      strict: true,
      noEmit: true,
      target: ts.ScriptTarget.ES2022,
      lib: ['lib.es2022.d.ts', 'lib.dom.d.ts'],
      module: ts.ModuleKind.NodeNext,
      moduleResolution: ts.ModuleResolutionKind.NodeNext,
      exactOptionalPropertyTypes: true,
      types: [],
    });
    const wrong = program
      .getSourceFiles()
      .flatMap((file) => (file.fileName.includes('/lib.') ? [] : program.getSemanticDiagnostics(file)));
    expect(wrong.map(({ file }) => file!.fileName.split('/').at(-1))).toEqual(['unchecked.ts', 'unknown.ts']);
  });

  test('works out of a bundler, where there is no node', async () => {
    mkdirSync(join(project, 'web'));
    const entry = join(project, 'web', 'entry.js');
    writeFileSync(
      entry,
      `import { readScenario, runStudy } from 'clampwright';
       globalThis.answer = runStudy(readScenario(globalThis.text).scenario, { count: 20 });`,
    );
    await build({
      root: join(project, 'web'),
      configFile: false,
      logLevel: 'silent',
      build: { lib: { entry, formats: ['iife'], name: 'shop', fileName: () => 'shop.js' }, minify: false },
    });
    const bundle = readFileSync(join(project, 'web/dist/shop.js'), 'utf8');
    expect(bundle).not.toMatch(/from\s*["']node:|require\(["']node:/);
    const world: { text: string; answer?: Promise<library.Study> } & Record<string, unknown> = {
      text,
      atob,
      WebAssembly,
      TextEncoder,
      TextDecoder,
    };
    world['globalThis'] = world;
    runInNewContext(bundle, world);
    const inNode = await library.runStudy(scenarioOf(text), { count: 20 });
    expect(JSON.stringify(await world.answer)).toBe(JSON.stringify(inNode));
  });

  test('keeps its size', () => {
    const bytes = readFileSync(join(PACKAGE, 'clampwright.js'));
    expect(bytes.length).toBeLessThan(850_000);
    expect(gzipSync(bytes).length).toBeLessThan(250_000);
    expect(
      statSync(join(PACKAGE, 'index.d.ts')).size + statSync(join(PACKAGE, 'types.d.ts')).size,
    ).toBeLessThan(20_000);
  });
});

describe('The surface', () => {
  test('is what is documented, no more', () => {
    expect(Object.keys(library).sort()).toEqual([
      'LIMITS',
      'VERSION',
      'applyOption',
      'checkScenario',
      'findLimits',
      'measures',
      'readScenario',
      'recordEvents',
      'recordXes',
      'runStudy',
      'scenarioSchema',
    ]);
  });

  test('gives the figures of the program itself, to the last bit', async () => {
    const scenario = scenarioOf(text);
    const answer = await library.runStudy(scenario, { options: ['third-set'], count: 40, seed: 'library' });
    const reading = checkScenario({ ...JSON.parse(text), seed: 'library' });
    if (reading.kind === 'wrong') throw new Error('wrong');
    const own = summarize(
      await runStudy({ ...comparison(reading.scenario, ['third-set']), count: 40 }, inLineRunner()),
    );
    expect(answer.seed).toBe('library');
    expect(answer.count).toBe(40);
    answer.cases.forEach(({ good, measures }, i) => {
      expect(own.cases[i]!.good).toMatchObject(good);
      expect(Object.keys(measures)).toEqual(library.measures().map(({ name }) => name));
    });
    expect(own.pairs[0]!.good).toMatchObject(answer.gains[0]!.good);
  });

  test('says what is wrong, and what is asked wrong', async () => {
    const wrong = library.readScenario('{"format":1,"name":"x"');
    expect(wrong.kind === 'wrong' ? wrong.faults[0]!.text : '').not.toBe('');
    const scenario = scenarioOf(text);
    for (const count of [1, 2.5, library.LIMITS.count + 1, NaN])
      await expect(library.runStudy(scenario, { count })).rejects.toThrow(/count must be a whole number/);
    await expect(library.runStudy(scenario, { precision: 0 })).rejects.toThrow(/precision must be over 0/);
    await expect(library.runStudy(scenario, { options: ['fourth'] })).rejects.toThrow(/third-set/);
    expect(() => library.recordEvents(scenario, -1)).toThrow(/replication/);
    expect(() => library.recordXes(scenario, '8 March')).toThrow(/date must be a day/);
    expect(library.applyOption(scenario, 'third-set').name).toBe(scenario.name);
    expect(library.checkScenario(library.scenarioSchema()).kind).toBe('wrong');
    expect(library.recordXes(scenario, '2027-03-08')).toContain('2027-03-08T06:');
    expect(library.recordEvents(scenario).at(-1)!.event).toBe('shift ends');
  });

  test('ends early where it is aborted, and tells how far it is', async () => {
    const stop = new AbortController();
    const told: number[] = [];
    const answer = await library.runStudy(scenarioOf(text), {
      count: 5000,
      signal: stop.signal,
      onProgress: (done) => {
        told.push(done);
        stop.abort();
      },
    });
    expect(answer.partial).toBe(true);
    expect(answer.count).toBeLessThan(5000);
    expect(told[0]).toBeGreaterThan(0);
  });
});
