// `npm run faults` tries every fault at length and writes tests/results/faults.md; `npm run faults -- 50`
// tries so many kills and as large a part of the rest; behind the number may stand which (`flags,damaged`),
// the other rows then stay as they stood.
import { cpSync, existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import seedrandom from 'seedrandom';
import { withBundle } from '../support/bundle.mjs';

const SEED = 'faults';
const root = fileURLToPath(new URL('../..', import.meta.url));
const kills = Number(process.argv[2] ?? 1000);
const only = process.argv[3]?.split(',') ?? null;
const part = kills / 1000;
const some = (whole) => Math.max(1, Math.round(whole * part));
const setting = {
  program: join(root, 'dist/cli/clampwright.js'),
  root,
  folder: mkdtempSync(join(tmpdir(), 'clampwright-faults-')),
  random: seedrandom(SEED),
};
const PAGE = join(root, 'tests/results/faults.md');
/** By what was tried; rows that are not tried again stay. */
const rows = new Map(only !== null && existsSync(PAGE) ? rowsOf(readFileSync(PAGE, 'utf8')) : []);
let bad = 0;
const row = (what, tried, seen, wrong) => {
  const text = `| ${what} | ${tried.toLocaleString('en-US')} | ${seen} | ${wrong} |`;
  rows.set(what, text);
  bad += wrong;
  console.log(text);
  writeDown();
};

function rowsOf(page) {
  const found = page.split('\n').filter((line) => /^\| .* \| [\d,]+ \|/.test(line));
  return found.map((line) => [line.slice(2, line.indexOf(' | ')), line]);
}

function writeDown() {
  const text = [
    '# Faults tried, and what was lost',
    '',
    `Written by \`npm run faults\`, seed \`${SEED}\`, ${new Date().toISOString().slice(0, 10)}, node ${process.version}, ${process.platform}.`,
    'Kills are SIGKILL: of a process that does nothing but write, at any moment; of a command, at moments spread over',
    'the last 60 % of the time it takes, and a little beyond.',
    'Loss of power cannot be tried here: that files and folders are flushed is how it is provided for.',
    '',
    '| fault | tried | seen | lost or crashed |',
    '| --- | ---: | --- | ---: |',
    ...rows.values(),
    '',
  ].join('\n');
  writeFileSync(PAGE, text);
}

process.chdir(root);
for (const name of ['scenarios', 'tests/shops'])
  cpSync(name, join(setting.folder, name), { recursive: true });
/** The program as a function. */
const program = pathToFileURL(join(dirname(setting.program), 'program.js')).href;
const { main } = await import(program);
const silent = () => undefined;
const call = (words) => main(words, { out: silent, err: silent, alone: true });
const beside = (name) => join(setting.folder, name);
const TRIALS = {
  async contents({ REPLACING }) {
    for (const writer of REPLACING)
      for (const turn of [0, 1]) {
        const code = await call(writer.words(beside(`${turn}-${writer.file}`), turn));
        if (code !== 0) throw new Error(`${writer.name} ended with ${code}`);
      }
  },
  async full({ ADDING, fillDisk, limitFiles, REPLACING }) {
    for (const [what, tryIt] of [
      ['a disk of 1 MB that becomes full', fillDisk],
      ['files that may not pass 1 KB', limitFiles],
    ]) {
      const seen = await tryIt({ ...setting, program }, { adding: ADDING, replacing: REPLACING });
      if (seen.kind !== 'tried') {
        row(what, 0, `not tried: ${seen.why}`, 0);
        continue;
      }
      row(what, seen.tried, `${seen.refused} refused in words`, seen.lost + seen.spoiled + seen.wrong.length);
      seen.wrong.forEach((one) => console.log(one));
    }
  },
  async writing({ killWriting, REPLACING }, module) {
    const one = await killWriting(kills, REPLACING, module, setting);
    const seen =
      `${one.kept} entries told to be kept, all there; ${one.renewed} times another content than before the kill; ` +
      `kills that left a new content half written beside the old: ${one.halves}, a line cut off: ${one.tails}`;
    row(
      `a process killed that writes ${REPLACING.length} kinds of file and a book on and on`,
      kills,
      seen,
      one.lost,
    );
  },
  async commands({ killAdding, killReplacing, ADDING, addition, REPLACING }) {
    const each = some(10);
    for (const adding of [{ name: 'log add', kind: 'result', words: addition }, ...ADDING]) {
      const one = await killAdding(each, setting, adding);
      const seen = `${one.ended} ended first, ${one.renewed} killed behind the write, ${one.tails} times a cut-off line`;
      row(`\`${adding.name}\` killed`, each, seen, one.lost);
    }
    for (const writer of REPLACING) {
      const one = await killReplacing(writer, each, setting);
      const seen = `${one.ended} ended first, ${one.renewed} killed behind the write`;
      row(`\`${writer.name}\` killed`, each, seen, one.lost);
    }
  },
  async parallel({ writeAtOnce }) {
    const one = await writeAtOnce(Math.max(10, some(100)), setting);
    const seen = `${one.saidKept} said "Kept", ${one.inLog} are in the log, ${one.unread} lines unread`;
    row('`log add` at once', one.writers, seen, one.lost + one.unread + (one.writers - one.saidKept));
  },
  async damaged({
    damageFiles,
    mergesShard,
    readScenario,
    readsBook,
    readsEvents,
    readsScenario,
    readsTimes,
  }) {
    const sound = [
      ...['chair-works', 'one-step', 'door-works'].map((name) => `scenarios/${name}.json`),
      ...readdirSync('tests/shops').flatMap((name) =>
        name.endsWith('.json') ? [`tests/shops/${name}`] : [],
      ),
    ];
    const demo = readScenario(readFileSync('scenarios/chair-works.json', 'utf8')).scenario;
    const book = beside('whole.jsonl');
    writeFileSync(beside('day.csv'), readFileSync(beside('0-events.csv'), 'utf8').slice(0, 6_000));
    for (const day of ['01', '02', '03'])
      await call(['result', '--day', `2027-03-${day}`, '--good', '17', '--note', 'of glue', '--log', book]);
    for (const [what, reads, files, count] of [
      ['scenario files', readsScenario, sound, 100_000],
      ['lists of events', readsEvents, [beside('day.csv')], 2_000],
      ['lists of times', readsTimes(demo), ['scenarios/chair-works-times-invented.csv'], 2_000],
      ['books of days', readsBook, [book], 20_000],
      [
        'shards, put together',
        mergesShard(beside('damaged.parquet'), call),
        [beside('0-part.parquet')],
        2_000,
      ],
    ]) {
      const one = await damageFiles(
        reads,
        files.map((file) => readFileSync(file)),
        some(count),
        SEED,
      );
      const seen = `${one.refused} refused in words, ${one.fine} still sound, longest ${Math.ceil(one.longest)} ms`;
      row(`damaged ${what}`, one.files, seen, one.crashed.length + Number(one.longest > 5000));
      one.crashed.slice(0, 10).forEach((each) => console.log(each));
    }
  },
  async flags({ throwFlags }) {
    const one = await throwFlags(some(20_000), { ...setting, program });
    const seen =
      `${one.refused} refused in words, ${one.fine} answered, longest ${one.longest.toFixed(1)} s of the processor, ` +
      `at most ${Math.ceil(one.memory)} MB`;
    row('junk on the command line', one.tried, seen, one.faults.length + one.hangs.length);
    [...one.faults, ...one.hangs].slice(0, 20).forEach((each) => console.log(each));
  },
};
try {
  await withBundle('tests/faults/all.ts', async (all) => {
    await TRIALS.contents(all);
    for (const [name, trial] of Object.entries(TRIALS).slice(1)) {
      if (only !== null && !only.includes(name)) continue;
      setting.random = seedrandom(`${SEED} ${name}`);
      if (name === 'writing') await withBundle('tests/faults/write-on.ts', (_, module) => trial(all, module));
      else await trial(all);
    }
  });
} finally {
  rmSync(setting.folder, { recursive: true, force: true });
}
process.exitCode = bad === 0 ? 0 : 1;
