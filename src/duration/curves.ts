/**
 * Every time curve of the scenario file: a new one is a file in curves/ and a line here. The order is that of
 * the choices on a page.
 */
import type { Curve } from './curve.ts';
import { exponential } from './curves/exponential.ts';
import { fixed } from './curves/fixed.ts';
import { gamma } from './curves/gamma.ts';
import { lognormal } from './curves/lognormal.ts';
import { observed } from './curves/observed.ts';
import { quickUsualSlow } from './curves/quick-usual-slow.ts';
import { triangular } from './curves/triangular.ts';
import { uniform } from './curves/uniform.ts';
import { weibull } from './curves/weibull.ts';

export const CURVES = [
  quickUsualSlow,
  fixed,
  lognormal,
  triangular,
  uniform,
  gamma,
  weibull,
  exponential,
  observed,
] as const satisfies readonly Curve<string, unknown>[];
