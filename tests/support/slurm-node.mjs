/**
 * A Slurm cluster of one node, this machine: munged, slurmctld and slurmd as root on loopback, with files and
 * ports of their own, so that one that runs here already is left alone.
 */
import { spawn, spawnSync } from 'node:child_process';
import { randomBytes } from 'node:crypto';
import { chmodSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { hostname, tmpdir } from 'node:os';
import { join } from 'node:path';

const DAEMONS = ['munged', 'slurmctld', 'slurmd'];
const CLIENTS = ['sbatch', 'squeue', 'scancel', 'sinfo'];
/** Where Debian puts daemons, which are not on everybody's path. */
const PATH = `${process.env.PATH ?? ''}:/usr/sbin:/sbin`;

/** Why no node can be started here, in plain words; null where one can. */
export function noSlurm() {
  if (process.platform !== 'linux') return 'Slurm nodes are started on Linux only';
  const missing = [...DAEMONS, ...CLIENTS].filter(
    (name) => spawnSync('sh', ['-c', `command -v ${name}`], { env: { PATH } }).status !== 0,
  );
  if (missing.length > 0)
    return `not installed: ${missing.join(', ')} (Debian: slurmctld slurmd slurm-client munge)`;
  return process.getuid?.() === 0 ? null : 'a Slurm node is started by root only';
}

/** @param {number} cpus tasks at a time; more than the machine has is allowed. */
export async function startSlurmNode(cpus) {
  const folder = mkdtempSync(join(tmpdir(), 'clampwright-slurm-'));
  // Whoever asks munged must be able to get to its socket.
  chmodSync(folder, 0o755);
  for (const name of ['run', 'state', 'spool']) mkdirSync(join(folder, name), { mode: 0o755 });
  const at = (name) => join(folder, name);
  writeFileSync(at('munge.key'), randomBytes(1024), { mode: 0o400 });
  writeFileSync(at('cgroup.conf'), 'CgroupAutomount=no\n');
  writeFileSync(at('slurm.conf'), config(folder, cpus, await freePort(), await freePort()));
  const env = { ...process.env, PATH, SLURM_CONF: at('slurm.conf') };
  const children = [];
  const start = (command, words) => {
    const child = spawn(command, words, { env, stdio: ['ignore', 'ignore', 'ignore'] });
    child.on('error', () => undefined);
    children.push(child);
    return child;
  };
  const call = (command, words, options = {}) =>
    spawnSync(command, words, { env, encoding: 'utf8', ...options });
  const stop = async () => {
    for (const child of children.reverse()) await ended(child);
    rmSync(folder, { recursive: true, force: true });
  };
  try {
    const files = { key: 'munge.key', socket: 'run/munge', 'pid-file': 'run/munged.pid' };
    const own = { ...files, 'log-file': 'run/munged.log', 'seed-file': 'run/munged.seed' };
    const words = Object.entries(own).map(
      ([name, file]) => `--${name === 'key' ? 'key-file' : name}=${at(file)}`,
    );
    start('munged', ['--foreground', ...words]);
    await until(() => call('munge', ['-n', `--socket=${at('run/munge')}`]).status === 0, 'munged');
    start('slurmctld', ['-D', '-c', '-f', at('slurm.conf')]);
    start('slurmd', ['-D', '-f', at('slurm.conf')]);
    await until(() => call('sinfo', ['-h', '-o', '%t']).stdout.trim() === 'idle', 'the node');
    return { env, call, stop };
  } catch (error) {
    const told = ['slurmctld', 'slurmd', 'munged'].map((name) => lastLines(at(`run/${name}.log`)));
    await stop();
    throw new Error(`${error.message}\n${told.join('\n')}`, { cause: error });
  }
}

/** No cgroups and no accounting: a container may have neither. */
const config = (folder, cpus, port, nodePort) => `ClusterName=one
SlurmctldHost=${hostname()}(127.0.0.1)
SlurmUser=root
SlurmdUser=root
AuthType=auth/munge
AuthInfo=socket=${folder}/run/munge
CredType=cred/munge
SlurmctldPort=${port}
SlurmdPort=${nodePort}
StateSaveLocation=${folder}/state
SlurmdSpoolDir=${folder}/spool
SlurmctldPidFile=${folder}/run/slurmctld.pid
SlurmdPidFile=${folder}/run/slurmd.pid
SlurmctldLogFile=${folder}/run/slurmctld.log
SlurmdLogFile=${folder}/run/slurmd.log
ProctrackType=proctrack/pgid
TaskPlugin=task/none
SelectType=select/cons_tres
SelectTypeParameters=CR_CPU
SlurmdParameters=config_overrides
SwitchType=switch/none
MpiDefault=none
ReturnToService=2
JobAcctGatherType=jobacct_gather/none
AccountingStorageType=accounting_storage/none
NodeName=${hostname()} NodeAddr=127.0.0.1 CPUs=${cpus} State=UNKNOWN
PartitionName=all Nodes=${hostname()} Default=YES MaxTime=INFINITE State=UP
`;

const freePort = () =>
  new Promise((resolve, reject) => {
    const server = createServer().on('error', reject);
    server.listen(0, '127.0.0.1', () => {
      const { port } = server.address();
      server.close(() => resolve(port));
    });
  });

const ended = (child) =>
  new Promise((resolve) => {
    if (child.exitCode !== null || child.signalCode !== null || child.pid === undefined) return resolve();
    child.once('close', () => resolve());
    child.kill('SIGTERM');
    setTimeout(() => child.kill('SIGKILL'), 10_000).unref();
  });

/** Asks again until it is so; a machine that is held up only takes longer. */
export async function until(isSo, what, seconds = 120) {
  const last = Date.now() + seconds * 1000;
  while (!isSo()) {
    if (Date.now() > last) throw new Error(`${what} did not come up within ${seconds} seconds`);
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
}

function lastLines(file) {
  try {
    return `${file}:\n${readFileSync(file, 'utf8').split('\n').slice(-8).join('\n')}`;
  } catch {
    return '';
  }
}
