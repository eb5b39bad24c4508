import type { SpawnSyncOptions, SpawnSyncReturns } from 'node:child_process';

export function noSlurm(): string | null;

export interface SlurmNode {
  env: NodeJS.ProcessEnv;
  /** Runs a client of this cluster to its end. */
  call(command: string, words: string[], options?: SpawnSyncOptions): SpawnSyncReturns<string>;
  stop(): Promise<void>;
}

export function startSlurmNode(cpus: number): Promise<SlurmNode>;

export function until(isSo: () => boolean, what: string, seconds?: number): Promise<void>;
