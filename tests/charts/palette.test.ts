import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { DARK, LIGHT } from '../../src/charts/palette.ts';
import { contrast, distance, lab, type Eyes } from './colour-vision.ts';

const MEANT = ['glue-up', 'cure', 'waiting', 'unclamping', 'other'] as const;

test('the colour arithmetic gives the published figures for white, black and pure red', () => {
  // CIE Lab of sRGB red: 53.24, 80.09, 67.20 (commonly tabulated; from memory).
  expect(lab('#ff0000').map((part) => Math.round(part * 10) / 10)).toEqual([53.2, 80.1, 67.2]);
  expect(contrast('#ffffff', '#000000')).toBeCloseTo(21, 9);
  expect(lab('#ffffff', 'protan')[0]).toBeCloseTo(100, 3);
});

describe.each([
  ['light', LIGHT],
  ['dark', DARK],
] as const)('the %s palette', (_name, palette) => {
  test.each(['ink', 'muted'] as const)('%s reads on paper and on shade at 4.5 to 1 or better', (text) => {
    expect(contrast(palette[text], palette.paper)).toBeGreaterThanOrEqual(4.5);
    expect(contrast(palette[text], palette.shade)).toBeGreaterThanOrEqual(4.5);
  });

  test.each(MEANT)('%s stands out from paper at 3 to 1 or better', (meaning) => {
    expect(contrast(palette[meaning], palette.paper)).toBeGreaterThanOrEqual(3);
  });

  test('the hot colour also reads as text', () => {
    expect(contrast(palette.waiting, palette.paper)).toBeGreaterThanOrEqual(4.5);
  });

  test.each(['normal', 'protan', 'deutan'] as Eyes[])(
    'any two colours with a meaning are 12 apart for %s eyes',
    (eyes) => {
      for (const [i, one] of MEANT.entries()) {
        for (const other of MEANT.slice(i + 1)) {
          expect(distance(palette[one], palette[other], eyes), `${one} and ${other}`).toBeGreaterThanOrEqual(
            12,
          );
        }
      }
    },
  );
});

test('the style sheet of the pages uses the same colours', () => {
  const css = readFileSync(new URL('../../web/look.css', import.meta.url), 'utf8');
  for (const [name, colour] of Object.entries(LIGHT)) expect(css).toContain(`--light-${name}: ${colour};`);
  for (const [name, colour] of Object.entries(DARK)) expect(css).toContain(`--dark-${name}: ${colour};`);
});
