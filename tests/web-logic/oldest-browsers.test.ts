/**
 * The page keeps to what its oldest browsers have. Versions are those of MDN's compatibility tables
 * (developer.mozilla.org), as remembered.
 */
import { readFileSync } from 'node:fs';
import { build } from 'vite';
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import { OLDEST } from '../../web/build/oldest.ts';

const root = new URL('../../', import.meta.url).pathname;
const oldest = Object.fromEntries(
  OLDEST.map((one) => {
    const [, name, version] = /^([a-z]+)([\d.]+)$/.exec(one)!;
    return [name!, Number(version)];
  }),
) as { chrome: number; edge: number; firefox: number; safari: number };

/** What the build doesn't take back to older forms, with the first versions that have it. */
const NEWER: { what: string; sign: RegExp; chrome: number; firefox: number; safari: number }[] = [
  { what: ':has()', sign: /:has\(/, chrome: 105, firefox: 121, safari: 15.4 },
  { what: 'toSorted', sign: /\.toSorted\(/, chrome: 110, firefox: 115, safari: 16 },
  { what: 'toReversed', sign: /\.toReversed\(/, chrome: 110, firefox: 115, safari: 16 },
  { what: 'toSpliced', sign: /\.toSpliced\(/, chrome: 110, firefox: 115, safari: 16 },
  { what: 'Object.groupBy', sign: /Object\.groupBy\(/, chrome: 117, firefox: 119, safari: 17.4 },
  { what: 'Map.groupBy', sign: /Map\.groupBy\(/, chrome: 117, firefox: 119, safari: 17.4 },
  {
    what: 'Promise.withResolvers',
    sign: /Promise\.withResolvers\(/,
    chrome: 119,
    firefox: 121,
    safari: 17.4,
  },
  { what: 'Promise.try', sign: /Promise\.try\(/, chrome: 128, firefox: 134, safari: 18.2 },
  { what: 'Array.fromAsync', sign: /Array\.fromAsync\(/, chrome: 121, firefox: 115, safari: 16.4 },
  {
    what: 'sets of sets',
    sign: /\.(symmetricDifference|isSubsetOf|isSupersetOf|isDisjointFrom)\(/,
    chrome: 122,
    firefox: 127,
    safari: 17,
  },
  {
    what: 'iterator helpers',
    sign: /\.(values|keys|entries)\(\)\.(map|filter|take|drop|flatMap|reduce|toArray|some|every|find)\(/,
    chrome: 122,
    firefox: 131,
    safari: 18.4,
  },
  { what: 'AbortSignal.any', sign: /AbortSignal\.any\(/, chrome: 116, firefox: 124, safari: 17.4 },
  { what: 'URL.canParse', sign: /URL\.canParse\(/, chrome: 120, firefox: 115, safari: 17 },
  { what: 'URL.parse', sign: /\bURL\.parse\(/, chrome: 126, firefox: 126, safari: 18 },
  { what: 'Intl.Segmenter', sign: /Intl\.Segmenter/, chrome: 87, firefox: 125, safari: 14.1 },
  { what: 'Intl.DurationFormat', sign: /Intl\.DurationFormat/, chrome: 129, firefox: 136, safari: 16.4 },
  { what: 'RegExp.escape', sign: /RegExp\.escape\(/, chrome: 136, firefox: 134, safari: 18.2 },
  { what: 'isWellFormed', sign: /\.(isWellFormed|toWellFormed)\(/, chrome: 111, firefox: 119, safari: 16.4 },
  {
    what: 'transfer of a buffer',
    sign: /\.transferToFixedLength\(/,
    chrome: 114,
    firefox: 122,
    safari: 17.4,
  },
  { what: 'checkVisibility', sign: /\.checkVisibility\(/, chrome: 105, firefox: 106, safari: 17.4 },
  {
    what: 'popover',
    sign: /\.(togglePopover|showPopover|hidePopover)\(|\spopover[=>\s]/,
    chrome: 114,
    firefox: 125,
    safari: 17,
  },
  {
    what: 'requestIdleCallback',
    sign: /(?<!typeof )\brequestIdleCallback\(/,
    chrome: 47,
    firefox: 55,
    safari: Infinity,
  },
  { what: 'light-dark()', sign: /light-dark\(/, chrome: 123, firefox: 120, safari: 17.5 },
  { what: '@starting-style', sign: /@starting-style/, chrome: 117, firefox: 129, safari: 17.5 },
  { what: '@scope', sign: /@scope/, chrome: 118, firefox: 146, safari: 17.4 },
  { what: '@property', sign: /@property\s+--/, chrome: 85, firefox: 128, safari: 16.4 },
  { what: 'anchors', sign: /anchor-name:|position-anchor:/, chrome: 125, firefox: 147, safari: 26 },
  { what: 'nested rules', sign: /[{;]\s*&[\s:.[>][^{}`]*\{/, chrome: 112, firefox: 117, safari: 16.5 },
  { what: 'field-sizing', sign: /field-sizing:/, chrome: 123, firefox: Infinity, safari: 26.2 },
];

const tooNew = NEWER.filter(
  (one) => one.chrome > oldest.chrome || one.firefox > oldest.firefox || one.safari > oldest.safari,
);

/** What is in a text that an oldest browser does not have, with a bit of what stands around it. */
const found = (file: string): string[] => {
  // A library that asks first and has another way does no harm.
  const text = file.replace(/typeof ([\w.]+)==`function`\?\1\(/g, '');
  return tooNew.flatMap(({ what, sign }) => {
    const at = text.search(sign);
    return at < 0 ? [] : [`${what}: …${text.slice(Math.max(0, at - 60), at + 60)}…`];
  });
};

describe('the page in its oldest browsers', () => {
  const files: { name: string; text: string }[] = [];
  beforeAll(async () => {
    vi.stubEnv('NODE_ENV', 'production');
    const made = await build({
      configFile: `${root}vite.config.ts`,
      root: `${root}web`,
      logLevel: 'error',
      build: { write: false },
    });
    if (!('output' in made)) throw new Error('the build gave no files');
    for (const file of made.output) {
      const text = file.type === 'chunk' ? file.code : String(file.source);
      if (/\.(js|css|html)$/.test(file.fileName)) files.push({ name: file.fileName, text });
    }
  });
  afterAll(() => vi.unstubAllEnvs());

  test('has nothing in its scripts and styles that they do not have', () => {
    expect(files.length).toBeGreaterThan(10);
    expect(files.flatMap(({ name, text }) => found(text).map((one) => `${name}: ${one}`))).toEqual([]);
  });

  test('would notice', () => {
    expect(found('.line:has(.unit){}a.toSorted()')).toHaveLength(2);
    expect(found('a{color:red;&:hover{color:blue}}')).toHaveLength(1);
    expect(found('[...a].sort(); a && b')).toEqual([]);
  });

  test('begins with words that browsers of 2009 can read', () => {
    const words = files.find(({ name }) => name.includes('first-words'))!.text;
    const code = words.replace(/\/\/.*$|\/\*[\s\S]*?\*\/|'[^'\n]*'/gm, '0');
    expect(code).not.toMatch(/=>|`|\b(const|let|class|async|await)\b|\?\.|\?\?|\.\.\.|,\s*\)/);
    const page = files.find(({ name }) => name === 'index.html')!.text;
    expect(page.indexOf('first-words')).toBeGreaterThan(0);
    expect(page.indexOf('first-words')).toBeLessThan(page.indexOf('type="module"'));
  });

  test('are the ones that the words and the README name', () => {
    const { chrome, edge, firefox, safari } = oldest;
    expect(edge).toBe(chrome);
    const words = `Chrome or Edge ${chrome}, Firefox ${firefox}, Safari ${safari}`;
    for (const file of ['README.md', 'web/begin/first-words.js'])
      expect(readFileSync(`${root}${file}`, 'utf8'), file).toContain(words);
  });
});
