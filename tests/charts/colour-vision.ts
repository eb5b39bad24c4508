/**
 * Colour arithmetic for the tests of the palette. sRGB and its white as in IEC 61966-2-1; CIE 1976 L*a*b*,
 * white D65.
 */
export type Triple = [number, number, number];

function linear(hex: string): Triple {
  return [1, 3, 5].map((at) => {
    const share = parseInt(hex.slice(at, at + 2), 16) / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  }) as Triple;
}

/**
 * Linear sRGB as eyes without one kind of cone see it: Machado, Oliveira and Fernandes, "A
 * Physiologically-based Model for Simulation of Color Vision Deficiency", IEEE Trans. Visualization and
 * Computer Graphics 15(6), 2009, severity 1.0 (figures read in published code).
 */
const EYES = {
  normal: [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ],
  protan: [
    [0.152286, 1.052583, -0.204868],
    [0.114503, 0.786281, 0.099216],
    [-0.003882, -0.048116, 1.051998],
  ],
  deutan: [
    [0.367322, 0.860646, -0.227968],
    [0.280085, 0.672501, 0.047413],
    [-0.01182, 0.04294, 0.968881],
  ],
} satisfies Record<string, Triple[]>;
export type Eyes = keyof typeof EYES;

const times = (matrix: Triple[], v: Triple): Triple =>
  matrix.map((row) => row[0] * v[0] + row[1] * v[1] + row[2] * v[2]) as Triple;

/** L*, a*, b* of a colour as these eyes see it. */
export function lab(hex: string, eyes: Eyes = 'normal'): Triple {
  const seen = times(EYES[eyes], linear(hex)).map((share) => Math.min(1, Math.max(0, share))) as Triple;
  const xyz = times(
    [
      [0.4124564, 0.3575761, 0.1804375],
      [0.2126729, 0.7151522, 0.072175],
      [0.0193339, 0.119192, 0.9503041],
    ],
    seen,
  );
  const f = (t: number): number => (t > 216 / 24389 ? Math.cbrt(t) : ((24389 / 27) * t + 16) / 116);
  const [x, y, z] = [f(xyz[0] / 0.95047), f(xyz[1]), f(xyz[2] / 1.08883)];
  return [116 * y - 16, 500 * (x - y), 200 * (y - z)];
}

/** CIE 1976 distance of two colours as these eyes see them. */
export function distance(one: string, other: string, eyes: Eyes): number {
  const [a, b] = [lab(one, eyes), lab(other, eyes)];
  return Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
}

/** Contrast ratio of WCAG 2.2. */
export function contrast(one: string, other: string): number {
  const light = (hex: string): number =>
    linear(hex).reduce((sum, share, i) => sum + share * [0.2126, 0.7152, 0.0722][i]!, 0);
  const [a, b] = [light(one), light(other)];
  return (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
}
