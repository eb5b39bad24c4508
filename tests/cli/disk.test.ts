/** What the program writes and reads on a disk, and what it says when the disk will not. */
import { execFileSync, spawnSync } from 'node:child_process';
import {
  appendFileSync,
  chmodSync,
  chownSync,
  closeSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  openSync,
  readFileSync,
  readdirSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { clampwright, json, PROGRAM, ROOT, scenarioFile, type Ended } from './program.ts';

const folder = mkdtempSync(join(tmpdir(), 'clampwright-disk-'));
chmodSync(folder, 0o755);
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const at = (name: string): string => join(folder, name);
const text = (name: string): string => readFileSync(at(name), 'utf8');
const said = ({ err }: Ended): string => err.replace(/\s+/g, ' ');
const add = (log: string, date: string, good: number): Ended =>
  clampwright(['log', 'add', '--date', date, '--good', String(good), '--log', at(log)]);

interface Shown {
  log: { days: { date: string; good?: number; note?: string }[] };
  unread: string[];
}
const shown = (log: string): Shown & { code: number | null } => {
  const { code, out } = clampwright(['log', 'show', '--json', '--log', at(log)]);
  return { ...json<Shown>(out), code };
};
/** For somebody without the rights of the machine's owner. */
const asSomebody = (words: string[]): Ended => {
  const { status, stdout, stderr } = spawnSync(process.execPath, [PROGRAM, ...words], {
    cwd: ROOT,
    encoding: 'utf8',
    ...(process.getuid?.() === 0 ? { uid: 65_534, gid: 65_534 } : {}),
  });
  return { code: status, out: stdout, err: stderr };
};

describe('the log', () => {
  it('is only ever added to: what stood there stands there to the byte', () => {
    add('log.jsonl', '2027-03-04', 19);
    const before = text('log.jsonl');
    add('log.jsonl', '2027-03-04', 20);
    expect(text('log.jsonl').startsWith(before)).toBe(true);
    expect(text('log.jsonl').trimEnd().split('\n')).toHaveLength(2);
    expect(shown('log.jsonl').log.days).toMatchObject([{ date: '2027-03-04', good: 20 }]);
    expect(readdirSync(folder).filter((name) => name.includes('.lock'))).toEqual([]);
  });

  it('a cut-off last line is said once, told by the exit code, and never glued to the next entry', () => {
    add('torn.jsonl', '2027-03-04', 19);
    appendFileSync(at('torn.jsonl'), '{"entry":1,"id":"x","day":"2027');
    const ended = clampwright(['log', 'show', '--log', at('torn.jsonl')]);
    expect(ended.code).toBe(5);
    expect(said(ended)).toMatch(/last line of .*torn\.jsonl was cut off and not read/);
    expect(clampwright(['morning', '--day', '2027-03-05', '--log', at('torn.jsonl')]).code).toBe(5);
    const added = add('torn.jsonl', '2027-03-05', 20);
    expect(added.code).toBe(0);
    expect(said(added)).toMatch(/A copy of what could not be read is in .*torn-unread\.jsonl/);
    const { log, unread, code } = shown('torn.jsonl');
    expect(log.days.map((day) => day.date)).toEqual(['2027-03-04', '2027-03-05']);
    expect({ unread, code }).toEqual({ unread: [], code: 0 });
    expect(text('torn.jsonl')).toContain('"day":"2027\n');
    const copy = json<{ text: string }>(text('torn-unread.jsonl'));
    expect(copy.text).toBe('{"entry":1,"id":"x","day":"2027');
    // Damage that came later is news, and a file of that name that is somebody else's stays.
    appendFileSync(at('torn.jsonl'), 'later\n');
    expect(shown('torn.jsonl')).toMatchObject({ code: 5 });
    writeFileSync(at('torn-unread.jsonl'), 'mine');
    expect(add('torn.jsonl', '2027-03-06', 21).code).toBe(0);
    expect(text('torn-unread.jsonl')).toBe('mine');
  });

  it('takes in what another has, keeps its own to the byte, and refuses two truths', () => {
    add('bench.jsonl', '2027-03-04', 19);
    add('tablet.jsonl', '2027-03-05', 20);
    const [bench, tablet] = [text('bench.jsonl'), text('tablet.jsonl')];
    const join = (...others: string[]): Ended =>
      clampwright(['log', 'join', ...others.map(at), '--log', at('bench.jsonl')]);
    expect(join('tablet.jsonl').out).toMatch(/^1 new entry; 0 were here already/);
    expect(text('bench.jsonl').startsWith(bench)).toBe(true);
    expect(shown('bench.jsonl').log.days.map((day) => day.good)).toEqual([19, 20]);
    const both = text('bench.jsonl');
    expect(join('tablet.jsonl', 'bench.jsonl').out).toMatch(/^Nothing new; 2 were here already/);
    expect(text('bench.jsonl')).toBe(both);
    writeFileSync(at('tablet.jsonl'), tablet.replace('"good":20', '"good":12'));
    const refused = join('tablet.jsonl');
    expect(refused.code).toBe(1);
    expect(said(refused)).toMatch(/same id and say different things.*result of 2027-03-05 .*20.*against.*12/);
    expect(text('bench.jsonl')).toBe(both);
    expect(join('nobody.jsonl').code).toBe(2);
  });

  it('an entry made with a clock that was ahead does not outlast what is said later', () => {
    add('ahead.jsonl', '2027-03-04', 19);
    const ahead = text('ahead.jsonl')
      .replace(/"at":"\d{4}/, '"at":"2199')
      .replace(/"id":"\w/, '"id":"!');
    appendFileSync(at('ahead.jsonl'), ahead);
    add('ahead.jsonl', '2027-03-04', 21);
    expect(shown('ahead.jsonl').log.days).toMatchObject([{ good: 21 }]);
  });

  it('of the older form goes on in a book beside it, and stays as it is', () => {
    const older = JSON.stringify({
      format: 1,
      cell: 'Bench',
      days: [
        { date: '2027-03-03', good: 17, note: 'kits late' },
        { date: '2027-02-30', good: 3 },
      ],
    });
    writeFileSync(at('old.json'), older);
    expect(shown('old.json').log.days).toEqual([{ date: '2027-03-03', good: 17, note: 'kits late' }]);
    expect(existsSync(at('old.jsonl'))).toBe(false);
    const ended = add('old.json', '2027-03-04', 19);
    expect(said(ended)).toMatch(
      /Kept in .*old\.jsonl\. The days of .*old\.json, in the older form, are in it/,
    );
    expect(said(ended)).toMatch(/day 2 \(2027-02-30\): date: write a date/);
    add('old.jsonl', '2027-03-03', 18);
    for (const name of ['old.json', 'old.jsonl'])
      expect(shown(name).log.days).toMatchObject([
        { date: '2027-03-03', good: 18, note: 'kits late' },
        { date: '2027-03-04', good: 19 },
      ]);
    expect(text('old.json')).toBe(older);
    rmSync(at('old.json'));
    expect(shown('old.jsonl').log.days).toHaveLength(2);
  });

  it.each([
    ['a list', 'day,good\r\n2027-03-04,19\r\n'],
    ['a scenario', readFileSync(scenarioFile('one-step'), 'utf8')],
    ['a picture', '\u0089PNG\r\n'],
  ])('%s is no log and stays as it is', (_, content) => {
    writeFileSync(at('other.jsonl'), content);
    const ended = add('other.jsonl', '2027-03-04', 19);
    expect(ended.code).toBe(2);
    expect(said(ended)).toMatch(/is no log\. Name another file with --log; nothing was changed/);
    expect(text('other.jsonl')).toBe(content);
  });

  it.each(['2027-02-30', '2027-13-01', '30.2.2027', '2027-3-1'])('there is no day %s', (date) => {
    const ended = clampwright(['log', 'add', '--date', date, '--good', '3', '--log', at('none.jsonl')]);
    expect(ended.code).toBe(2);
    expect(said(ended)).toMatch(/YYYY-MM-DD that the calendar has/);
    expect(existsSync(at('none.jsonl'))).toBe(false);
  });
});

describe('a file that is there already', () => {
  const WRITERS: [string, string, string[]][] = [
    ['record', 'a record of events', ['record', '--save']],
    ['times', 'a scenario', ['times', 'scenarios/chair-works-times-invented.csv', '--apply']],
    ['now', 'a scenario', ['now', '--at', '07:00', '--handover', '--tomorrow']],
    [
      'brief',
      'a page written by clampwright',
      ['brief', 'scenarios/one-step.json', '--limits', '--count', '4', '--format', 'html', '--save'],
    ],
  ];
  it.each(WRITERS)('and is not ours is overwritten with --force only: %s', (name, what, words) => {
    const path = at(`${name}.own`);
    writeFileSync(path, 'my own notes\n');
    const refused = clampwright([...words, path]);
    expect(refused.code).toBe(2);
    expect(said(refused)).toContain(`is there already and is not ${what}. Name another file, or say --force`);
    expect(readFileSync(path, 'utf8')).toBe('my own notes\n');
    expect(clampwright([...words, path, '--force']).code).toBe(0);
    expect(readFileSync(path, 'utf8')).not.toContain('my own notes');
    // What it wrote itself it may write again, and leaves nothing beside it.
    expect(clampwright([...words, path]).code).toBe(0);
    expect(readdirSync(folder).filter((file) => file.startsWith(`${name}.own`))).toEqual([`${name}.own`]);
  });

  it('by way of a link is written where the link leads', () => {
    writeFileSync(at('true.csv'), '');
    symlinkSync(at('true.csv'), at('link.csv'));
    expect(clampwright(['record', '--save', at('link.csv')]).code).toBe(0);
    expect(text('true.csv')).toMatch(/^day,time,event/);
  });

  it('is a device or a pipe: it gets the text', () => {
    expect(clampwright(['record', '--save', '/dev/null']).code).toBe(0);
    const command = `"${process.execPath}" "${PROGRAM}" record --save /dev/stdout | head -1`;
    expect(execFileSync('bash', ['-c', command], { cwd: ROOT, encoding: 'utf8' })).toMatch(/^day,time,event/);
  });
});

describe('a disk that will not', () => {
  it('is said in words, and is no fault of the program: a folder that may not be written', () => {
    mkdirSync(at('shut'), { mode: 0o555 });
    for (const words of [
      ['record', '--save', at('shut/day.csv')],
      ['log', 'add', '--date', '2027-03-04', '--good', '3', '--log', at('shut/log.jsonl')],
    ]) {
      const ended = asSomebody(words);
      expect(ended.code).toBe(4);
      expect(said(ended)).toMatch(/may not be written by you\. Name a file in a folder of yours/);
    }
    expect(readdirSync(at('shut'))).toEqual([]);
  });

  it('a file that may not be read', () => {
    writeFileSync(at('secret.json'), '{}', { mode: 0o000 });
    if (process.getuid?.() === 0) chownSync(at('secret.json'), 0, 0);
    const ended = asSomebody(['run', at('secret.json')]);
    expect(ended.code).toBe(4);
    expect(said(ended)).toMatch(/may not be read/);
  });

  it('a folder that is not there', () => {
    for (const words of [
      ['record', '--save', at('nowhere/day.csv')],
      ['log', 'add', '--date', '2027-03-04', '--good', '3', '--log', at('nowhere/log.jsonl')],
    ]) {
      const ended = clampwright(words);
      expect(ended.code).toBe(2);
      expect(said(ended)).toMatch(/There is no folder .*nowhere\. Make it first, or name another/);
    }
  });

  const full = existsSync('/dev/full') ? openSync('/dev/full', 'w') : null;
  afterAll(() => {
    if (full !== null) closeSync(full);
  });
  it.runIf(full !== null).each([['run', '--count', '30'], ['record'], ['schema'], ['run', '--help']])(
    'an output that takes no more: %s',
    (...words) => {
      const { status, stderr } = spawnSync(process.execPath, [PROGRAM, ...words], {
        cwd: ROOT,
        encoding: 'utf8',
        stdio: ['ignore', full!, 'pipe'],
      });
      expect(status).toBe(4);
      expect(stderr.replace(/\s+/g, ' ')).toMatch(/The answer could not be written: there is no room for it/);
      expect(stderr).not.toMatch(/fault of the program/);
    },
  );

  it('a reader that closes early has what it wanted', () => {
    const command = `"${process.execPath}" "${PROGRAM}" record | head -1; echo "\${PIPESTATUS[0]}"`;
    const out = execFileSync('bash', ['-c', command], { cwd: ROOT, encoding: 'utf8' });
    expect(out).toMatch(/^day,time,event.*\r?\n0\n$/);
  });
});

describe('files of other programs', () => {
  const cell = readFileSync(scenarioFile('one-step'), 'utf8').replace(/"name": "[^"]*"/, '"name": "Möbel"');
  const list = 'step;minutes\nsand;20,5\nsand;22\nsand;25\n';
  const sixteen = (given: string): Buffer => Buffer.from(`\uFEFF${given}`, 'utf16le');
  it.each([
    ['UTF-16 with its mark', sixteen(cell)],
    ['UTF-16 the other way round', sixteen(cell).swap16()],
    ['UTF-16 without a mark', Buffer.from(cell, 'utf16le')],
    ['UTF-8 with its mark', Buffer.from(`\uFEFF${cell}`)],
  ])('a scenario in %s', (_, bytes) => {
    writeFileSync(at('coded.json'), bytes);
    const ended = clampwright(['check', at('coded.json')]);
    expect([ended.code, ended.err]).toEqual([0, '']);
    expect(ended.out).toContain('Möbel');
  });
  it('a scenario in Latin-1 is read, and said to be', () => {
    writeFileSync(at('latin.json'), Buffer.from(cell, 'latin1'));
    const ended = clampwright(['check', at('latin.json')]);
    expect(ended.code).toBe(0);
    expect(ended.out).toContain('Möbel');
    expect(said(ended)).toMatch(
      /not written in UTF-8 and was read as Western European \(Windows\) \("Möbel"\)/,
    );
  });
  it('a list as a spreadsheet saves it', () => {
    writeFileSync(at('list.csv'), sixteen(list));
    const { out } = clampwright(['times', at('list.csv'), '--json']);
    expect(json<{ read: { observations: unknown[] } }>(out).read.observations).toHaveLength(3);
  });
  it('what is no text is refused', () => {
    writeFileSync(at('sheet.xlsx'), Buffer.from([0x50, 0x4b, 3, 4, 0, 0, 0, 8, 0, 0x21, 0, 1]));
    const ended = clampwright(['times', at('sheet.xlsx')]);
    expect(ended.code).toBe(2);
    expect(said(ended)).toMatch(/is no text: it holds signs that no text has/);
  });
  it('a pipe that nothing comes through is given up, one with a file in it is read', () => {
    execFileSync('mkfifo', [at('pipe')]);
    const ended = clampwright(['check', at('pipe')]);
    expect(ended.code).toBe(4);
    expect(said(ended)).toMatch(/Nothing came through .*pipe in 10 seconds/);
    const command = `"${process.execPath}" "${PROGRAM}" check <(cat scenarios/one-step.json)`;
    expect(execFileSync('bash', ['-c', command], { cwd: ROOT, encoding: 'utf8' })).toMatch(
      /can be run|fine/i,
    );
  });
});
