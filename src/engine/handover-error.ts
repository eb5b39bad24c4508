/** A shift begins with fewer pieces of gear than the units that stand over hold: the file is wrong. */
export class HandoverError extends Error {
  override name = 'HandoverError';
}
