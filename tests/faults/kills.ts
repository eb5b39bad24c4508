/** kill -9 at random moments: what stands in the file afterwards is the old or the new, never less. */
import { spawn } from 'node:child_process';
import { existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { addition, dayOf, daysIn, inFolder, type Writer } from './writers.ts';

export interface Killed {
  kills: number;
  /** Ended before the signal came. */
  ended: number;
  /** The file was of neither content, or what had been said to be kept was gone. */
  lost: number;
  /** Killed, but the new content was whole already. */
  renewed: number;
}

export interface Setting {
  program: string;
  root: string;
  folder: string;
  /** Uniform numbers from 0 to 1. */
  random: () => number;
}

/** Runs the command and kills it after so many ms, or waits for its end. */
function runFor(
  words: string[],
  { program, root }: Setting,
  milliseconds: number,
): Promise<{ code: number | null; err: string }> {
  const child = spawn(process.execPath, [program, ...words], {
    cwd: root,
    stdio: ['ignore', 'ignore', 'pipe'],
  });
  const timer = Number.isFinite(milliseconds) ? setTimeout(() => child.kill('SIGKILL'), milliseconds) : null;
  let err = '';
  child.stderr.on('data', (data: Buffer) => (err += data.toString()));
  return new Promise((resolve) =>
    child.on('close', (code) => {
      if (timer !== null) clearTimeout(timer);
      resolve({ code, err });
    }),
  );
}

/** How long the command takes by itself, ms: kills are spread over the second half of it, where it writes. */
async function lengthOf(words: string[], setting: Setting): Promise<number> {
  const from = performance.now();
  const { code, err } = await runFor(words, setting, Infinity);
  if (code !== 0) throw new Error(`${words.join(' ')} ended with ${code}: ${err}`);
  return performance.now() - from;
}

const momentOf = (length: number, random: () => number): number => length * (0.4 + 0.7 * random());

export async function killReplacing(writer: Writer, kills: number, setting: Setting): Promise<Killed> {
  const path = inFolder(setting.folder, writer);
  const length = await lengthOf(writer.words(path, 0), setting);
  const result: Killed = { kills, ended: 0, lost: 0, renewed: 0 };
  for (let turn = 1; turn <= kills; turn++) {
    const before = readFileSync(path, 'utf8');
    const { code } = await runFor(writer.words(path, turn), setting, momentOf(length, setting.random));
    const after = existsSync(path) ? readFileSync(path, 'utf8') : '';
    if (!writer.whole(after)) {
      result.lost++;
      writeFileSync(path, before);
    }
    if (code !== null) result.ended++;
    else if (after !== before) result.renewed++;
  }
  return result;
}

/** After every kill each day that was said to be kept must be there; what was killed may be there or not. */
export async function killAdding(kills: number, setting: Setting): Promise<Killed & { tails: number }> {
  const path = `${setting.folder}/killed.jsonl`;
  const length = await lengthOf(addition(path, 0), setting);
  const kept = new Set([dayOf(0)]);
  const result = { kills, ended: 0, lost: 0, renewed: 0, tails: 0 };
  for (let turn = 1; turn <= kills; turn++) {
    // What a killed program held is free again after a while; a test need not wait for that.
    rmSync(`${path}.lock`, { recursive: true, force: true });
    const { code, err } = await runFor(addition(path, turn), setting, momentOf(length, setting.random));
    const { days, unread, tail } = daysIn(path);
    for (const day of kept) if (!days.has(day)) result.lost++;
    result.tails += Number(tail || unread > 0);
    if (code !== null) result.ended++;
    else if (days.has(dayOf(turn))) result.renewed++;
    if (err.includes('Kept in') || days.has(dayOf(turn))) kept.add(dayOf(turn));
  }
  return result;
}
