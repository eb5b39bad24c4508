/** What the tests take from the bundle, in which the engine runs as fast as it does for the user. */
export { THEORY } from './cases/all.ts';
export { runCase } from './case.ts';
