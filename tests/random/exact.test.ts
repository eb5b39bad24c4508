import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { exp, gammaFunction, gammaQuantile, log, normalQuantile, power } from '../../src/random/exact.ts';
import { compileTime, sample, sampleBeyond } from '../../src/duration/compile.ts';
import type { Time } from '../../src/duration/time.ts';
import { holds } from '../support/holds.ts';

describe('exp and log', () => {
  it('give the nearest doubles to values reckoned with 30 digits', () => {
    expect([0.5, -2.5, 0.1, 7.3, -0.7].map(exp)).toEqual([
      1.6487212707001281468, 0.08208499862389879517, 1.1051709180756476309, 1480.2999275845449599,
      0.49658530379140953676,
    ]);
    expect([10, 0.3, 2, 1e-9, 12345.678].map(log)).toEqual([
      2.302585092994045684, -1.2039728043259360296, 0.69314718055994530942, -20.723265836946411094,
      9.4210613212918319671,
    ]);
  });

  it("are within two units in the last place of the platform's", () => {
    const nearby = (ours: number, theirs: number): boolean =>
      Math.abs(ours - theirs) <= Math.abs(theirs) * 2 ** -51;
    holds(
      fc.property(fc.double({ min: -700, max: 700, noNaN: true }), (x) => nearby(exp(x), Math.exp(x))),
      { numRuns: 2000 },
    );
    holds(
      fc.property(fc.double({ min: 1e-300, max: 1e300, noNaN: true }), (x) => nearby(log(x), Math.log(x))),
      { numRuns: 2000 },
    );
  });
});

describe('the other functions', () => {
  it('raise 0 and 1 to a power as expected, and agree with repeated multiplication', () => {
    expect([power(0, 2), power(0, 0), power(1, 5), power(7, 0)]).toEqual([0, 1, 1, 1]);
    expect(power(1.7, 5)).toBeCloseTo(1.7 * 1.7 * 1.7 * 1.7 * 1.7, 12);
  });

  it('give the factorials and the root of pi', () => {
    expect(gammaFunction(6)).toBeCloseTo(120, 10);
    expect(gammaFunction(0.5)).toBeCloseTo(Math.sqrt(Math.PI), 13);
  });

  it('give the percentage points of the normal and chi-square tables', () => {
    // Standard tables: z(.975) = 1.959964, z(.9) = 1.281552; chi-square with 10 degrees of freedom, 5 % point
    // 18.307.
    expect(normalQuantile(0.975)).toBeCloseTo(1.959963985, 8);
    expect(normalQuantile(0.9)).toBeCloseTo(1.281551566, 8);
    expect(normalQuantile(0.25)).toBe(-normalQuantile(0.75));
    expect(2 * gammaQuantile(0.95, 5)).toBeCloseTo(18.307, 3);
  });
});

describe("the engine draws without the platform's own functions", () => {
  const FORBIDDEN = [
    'exp',
    'log',
    'pow',
    'sin',
    'cos',
    'tan',
    'sinh',
    'cosh',
    'tanh',
    'asinh',
    'acosh',
    'atanh',
    'expm1',
    'log1p',
    'cbrt',
    'hypot',
    'log2',
    'log10',
    'random',
  ] as const;
  const originals = Object.fromEntries(FORBIDDEN.map((name) => [name, Math[name]]));
  const times: Time[] = [
    { quick: 0, usual: 3.1, slow: 9 },
    { quick: 1.1, usual: 3.1, slow: 9 },
    { mean: 8.1, cv: 0.51 },
    { curve: 'gamma', mean: 8.1, cv: 0.51 },
    { curve: 'gamma', mean: 8.1, cv: 0.011 },
    { curve: 'weibull', shape: 1.71, scale: 6.1 },
    { curve: 'exponential', mean: 3.1 },
    { curve: 'triangular', least: 1.1, likeliest: 2, most: 5 },
  ];
  beforeAll(() => {
    for (const name of FORBIDDEN) {
      Object.defineProperty(Math, name, {
        configurable: true,
        writable: true,
        value: () => {
          throw new Error(`Math.${name} was called`);
        },
      });
    }
  });
  afterAll(() => {
    for (const name of FORBIDDEN)
      Object.defineProperty(Math, name, { configurable: true, writable: true, value: originals[name] });
  });

  it('draws every curve, its moments and its conditional times with those functions taken away', () => {
    for (const time of times) {
      const made = compileTime(time);
      for (let word = -(2 ** 31); word < 2 ** 31; word += 2 ** 24 + 12_345)
        expect(sample(made, word)).toBeGreaterThanOrEqual(0);
      expect(made.mean).toBeGreaterThan(0);
      expect(sampleBeyond(made, 77, made.mean)).toBeGreaterThanOrEqual(made.mean);
    }
  });

  it('names none of them, nor the power operator, in any of its files', () => {
    const files = ['src/random', 'src/duration', 'src/engine'].flatMap((room) =>
      readdirSync(room, { recursive: true, encoding: 'utf8' })
        .filter((file) => file.endsWith('.ts'))
        .map((file) => `${room}/${file}`),
    );
    expect(files.length).toBeGreaterThan(20);
    for (const file of files) {
      const code = readFileSync(file, 'utf8').replace(/\/\*[\s\S]*?\*\/|\/\/.*$/gm, '');
      expect(code, file).not.toMatch(new RegExp(`Math\\.(${FORBIDDEN.join('|')})\\b`));
      expect(code, file).not.toMatch(/\*\*/);
    }
  });
});
