// `npm run faults` tries every fault at length and writes tests/results/faults.md; `npm run faults -- 50`
// tries so many kills of each writer and as large a part of the rest.
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import seedrandom from 'seedrandom';
import { withBundle } from '../support/bundle.mjs';

const SEED = 'faults';
const root = fileURLToPath(new URL('../..', import.meta.url));
const kills = Number(process.argv[2] ?? 1000);
const part = kills / 1000;
const some = (whole) => Math.max(1, Math.round(whole * part));
const setting = {
  program: join(root, 'dist/cli/clampwright.js'),
  root,
  folder: mkdtempSync(join(tmpdir(), 'clampwright-faults-')),
  random: seedrandom(SEED),
};
const rows = [];
let bad = 0;
const row = (what, tried, seen, wrong) => {
  rows.push(`| ${what} | ${tried.toLocaleString('en-US')} | ${seen} | ${wrong} |`);
  bad += wrong;
  console.log(rows.at(-1));
  writeDown();
};

function writeDown() {
  const text = [
    '# Faults tried, and what was lost',
    '',
    `Written by \`npm run faults -- ${kills}\`, seed \`${SEED}\`, ${new Date().toISOString().slice(0, 10)}, node ${process.version}, ${process.platform}.`,
    'Kills are SIGKILL at moments spread over the last 60 % of the time the command takes, and a little beyond.',
    'Loss of power cannot be tried here: that files and folders are flushed is how it is provided for.',
    '',
    '| fault | tried | seen | lost or crashed |',
    '| --- | ---: | --- | ---: |',
    ...rows,
    '',
  ].join('\n');
  writeFileSync(join(root, 'tests/results/faults.md'), text);
}

process.chdir(root);
cpSync('scenarios', join(setting.folder, 'scenarios'), { recursive: true });
try {
  await withBundle('tests/faults/all.ts', async (all) => {
    const { damageScenarios, killAdding, killReplacing, REPLACING, throwFlags, writeAtOnce } = all;
    for (const [what, tryIt] of [
      ['a disk of 64 KB that becomes full', all.fillDisk],
      ['files that may not pass 1 KB', all.limitFiles],
    ]) {
      const seen = tryIt(setting);
      if (seen.kind !== 'tried') {
        row(what, 0, `not tried: ${seen.why}`, 0);
        continue;
      }
      row(what, seen.tried, `${seen.refused} refused in words`, seen.lost + seen.spoiled + seen.wrong.length);
      seen.wrong.forEach((one) => console.log(one));
    }
    const adding = await killAdding(kills, setting);
    row(
      '`log add` killed',
      kills,
      `${adding.ended} ended first, ${adding.renewed} killed behind the write, ${adding.tails} times a cut-off line`,
      adding.lost,
    );
    for (const writer of REPLACING) {
      const one = await killReplacing(writer, kills, setting);
      row(
        `\`${writer.name}\` killed`,
        kills,
        `${one.ended} ended first, ${one.renewed} killed behind the write`,
        one.lost,
      );
    }
    const parallel = await writeAtOnce(Math.max(10, some(100)), setting);
    row(
      '`log add` at once',
      parallel.writers,
      `${parallel.saidKept} said "Kept", ${parallel.inLog} are in the log, ${parallel.unread} lines unread`,
      parallel.lost + parallel.unread + (parallel.writers - parallel.saidKept),
    );
    const sound = ['chair-works', 'one-step', 'door-works'].map((name) =>
      readFileSync(`scenarios/${name}.json`),
    );
    const damaged = damageScenarios(sound, some(100_000), SEED);
    row(
      'damaged scenario files',
      damaged.files,
      `${damaged.refused} refused in words, ${damaged.fine} still sound, longest ${Math.ceil(damaged.longest)} ms`,
      damaged.crashed.length,
    );
    damaged.crashed.slice(0, 10).forEach((one) => console.log(one));
    const flags = await throwFlags(some(20_000), setting);
    row(
      'junk on the command line',
      flags.tried,
      `${flags.refused} refused in words, ${flags.fine} answered`,
      flags.faults.length,
    );
    flags.faults.slice(0, 10).forEach((one) => console.log(one));
  });
} finally {
  rmSync(setting.folder, { recursive: true, force: true });
}
process.exitCode = bad === 0 ? 0 : 1;
