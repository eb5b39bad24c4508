// The built program in a process of its own, with what it took.
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const PROGRAM = fileURLToPath(new URL('../../../dist/cli/clampwright.js', import.meta.url));

export const sizeOf = (file) => statSync(file).size;

/**
 * Runs a command to its end.
 * @param {string[]} words @param {{ cwd: string }} where
 * @returns what it printed; `cpu` seconds, user and system, of all its threads; `wall` seconds; `peak` bytes
 *   of memory at most. @throws Error with what it said where it does not end well.
 */
export function clampwright(words, { cwd }) {
  const folder = mkdtempSync(join(tmpdir(), 'clampwright-took-'));
  const file = join(folder, 'took');
  const tell = `data:text/javascript,import{writeFileSync as w}from'node:fs';import{isMainThread as m}from'node:worker_threads';if(m)process.on('exit',()=>{const{userCPUTime,systemCPUTime,maxRSS}=process.resourceUsage();w(${JSON.stringify(file)},JSON.stringify({cpu:(userCPUTime+systemCPUTime)/1e6,peak:maxRSS*1024}))})`;
  try {
    const began = Date.now();
    const { status, stdout, stderr } = spawnSync(process.execPath, ['--import', tell, PROGRAM, ...words], {
      cwd,
      encoding: 'utf8',
      maxBuffer: 1 << 30,
    });
    if (status !== 0) throw new Error(stderr);
    return { out: stdout, wall: (Date.now() - began) / 1000, ...JSON.parse(readFileSync(file, 'utf8')) };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
