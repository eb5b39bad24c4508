// Do the tests bite? `npm run mutate -- --area money --count 40` changes the source of a room in so many
// places, drawn at random, one at a time, and lets the room's own tests loose on each. What they do not
// notice is a survivor: a missing test, or a change that changes nothing. `tests/results/mutation.md` has the
// figures and the survivors of every room tried so far, each with what was found on looking at it.
import { fork } from 'node:child_process';
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join, normalize } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import seedrandom from 'seedrandom';
import ts from 'typescript';
import { AREAS } from './areas.mjs';
import { mutantsOf, shownIn } from './mutants.mjs';
import { resultsPage } from './page.mjs';

const root = fileURLToPath(new URL('../..', import.meta.url));
process.chdir(root);
const { values } = parseArgs({
  options: {
    area: { type: 'string', default: Object.keys(AREAS).join(',') },
    count: { type: 'string', default: '40' },
    seed: { type: 'string', default: 'mutants' },
    /** Only mutants of files with this in their path; nothing is written down then. */
    file: { type: 'string' },
    /** Files of tests that take more processor time than this, seconds, are left out. */
    longest: { type: 'string', default: '20' },
    /** Tries what survived the last time once more, by the tests that were left out then or are new. */
    survivors: { type: 'boolean', default: false },
  },
});
const RESULTS = 'tests/mutation/seen.json';
const text = (path) => readFileSync(path, 'utf8');
const filesIn = (folder, ending) =>
  readdirSync(folder, { recursive: true })
    .map((name) => join(folder, name))
    .filter((path) => path.endsWith(ending))
    .sort();

/** A list drawn without putting back (Fisher and Yates). */
function drawn(list, count, random) {
  const left = [...list];
  for (let at = 0; at < Math.min(count, left.length); at++) {
    const other = at + Math.floor(random() * (left.length - at));
    [left[at], left[other]] = [left[other], left[at]];
  }
  return left.slice(0, count);
}

const importsOf = new Map();
function imported(path) {
  if (!importsOf.has(path)) {
    const found = ts.preProcessFile(text(path), true, true).importedFiles.map(({ fileName }) => fileName);
    const own = found.filter((name) => name.startsWith('.'));
    importsOf.set(
      path,
      own
        .map((name) => normalize(join(dirname(path), name)))
        .filter((one) => /\.m?ts$/.test(one) && existsSync(one)),
    );
  }
  return importsOf.get(path);
}

/** All that a file reaches by what it imports. */
function reach(path, seen = new Set()) {
  if (seen.has(path)) return seen;
  seen.add(path);
  for (const next of imported(path)) reach(next, seen);
  return seen;
}

const seen = existsSync(RESULTS) ? JSON.parse(text(RESULTS)) : {};
let child = null;
async function worker(plain) {
  if (child !== null) return child;
  child = fork(join(root, 'tests/mutation/try-mutants.mjs'), {
    stdio: ['ignore', 'ignore', 'inherit', 'ipc'],
    env: { ...process.env, CLAMPWRIGHT_PLAIN_CORE: plain ? 'yes' : 'no' },
  });
  child.once('exit', () => (child = null));
  await new Promise((resolve) => child.once('message', resolve));
  return child;
}
/** What became of it; a process that is gone without a word counts as a fault of this mutant. */
async function ask({ plain = false, ...question }) {
  const one = await worker(plain);
  return new Promise((resolve) => {
    const gone = () => resolve({ kind: 'gone' });
    one.once('exit', gone);
    one.once('message', (answer) => {
      one.off('exit', gone);
      if (answer.kind === 'time') child = null;
      resolve(answer);
    });
    one.send(question);
  });
}

async function tryArea(name) {
  const { source, tests, plainCore: plain = false } = AREAS[name];
  const files = source
    .flatMap((folder) => filesIn(folder, '.ts'))
    .filter((path) => !/\.(wasm|d)\.ts$/.test(path));
  const all = files.flatMap((path) => mutantsOf(path, text(path)));
  const wanted = values.file === undefined ? all : all.filter(({ path }) => path.includes(values.file));
  const before = values.survivors ? seen[name] : null;
  const chosen = before
    ? wanted.filter((one) => before.survivors.some((other) => isSame(one, other)))
    : drawn(wanted, Number(values.count), seedrandom(`${values.seed} ${name}`));
  const own = filesIn('tests', '.test.ts').filter((file) => tests.some((begin) => file.startsWith(begin)));
  const reached = new Map(own.map((file) => [file, reach(file)]));
  console.log(`${name}: ${chosen.length} of ${wanted.length} mutants, ${own.length} files of tests`);
  const seconds = new Map();
  for (const file of own) {
    const sound = await ask({ id: -1, files: [file], plain });
    if (sound.kind !== 'run' || !sound.passed) {
      console.log(`  left out, since it does not pass as things are: ${file}`);
      reached.delete(file);
    } else {
      console.log(`  ${sound.seconds.toFixed(1)} s ${file}`);
      if (sound.seconds > Number(values.longest)) reached.delete(file);
      seconds.set(file, sound.seconds);
    }
  }
  const survivors = [];
  const counts = { killed: 0, time: 0, survived: 0 };
  for (const [id, mutant] of chosen.entries()) {
    const concerned = [...reached]
      .filter(([, seen]) => seen.has(mutant.path))
      .map(([file]) => file)
      .sort((a, b) => seconds.get(a) - seconds.get(b));
    const sum = concerned.reduce((total, file) => total + seconds.get(file), 0);
    const answer =
      concerned.length === 0
        ? { kind: 'run', passed: true }
        : await ask({ id, files: concerned, seconds: sum, plain, ...mutant });
    const killed = answer.kind !== 'run' || !answer.passed;
    if (answer.kind === 'time') counts.time++;
    if (killed) counts.killed++;
    else counts.survived++;
    const shown = { path: mutant.path, line: mutant.line, ...shownIn(text(mutant.path), mutant) };
    if (!killed) survivors.push(shown);
    const how = killed ? (answer.by ?? answer.kind) : 'SURVIVED';
    console.log(
      `  ${id + 1} ${mutant.path}:${mutant.line} ${mutant.was.slice(0, 40)} -> ${mutant.text.slice(0, 40)}: ${how}`,
    );
    if (!killed) console.log(`      ${shown.before}\n      ${shown.after}`);
  }
  const sum = before && {
    killed: before.killed + counts.killed,
    time: before.time + counts.time,
    tried: before.tried,
    survived: before.tried - before.killed - counts.killed,
  };
  return { tried: chosen.length, of: all.length, seed: values.seed, ...counts, ...sum, survivors };
}

/** A survivor by its place and words: lines may have moved since. */
function isSame(mutant, { path, before, after }) {
  if (mutant.path !== path) return false;
  const shown = shownIn(text(path), mutant);
  return shown.before === before && shown.after === after;
}
for (const name of values.area.split(',')) {
  const result = await tryArea(name);
  child?.send('end');
  child = null;
  console.log(`${name}: ${result.killed} of ${result.tried} killed (${result.time} of them by time)`);
  if (values.file !== undefined) continue;
  seen[name] = result;
  writeFileSync(RESULTS, `${JSON.stringify(seen, null, 2)}\n`);
  writeFileSync(
    'tests/results/mutation.md',
    resultsPage(seen, JSON.parse(text('tests/mutation/judged.json'))),
  );
}
