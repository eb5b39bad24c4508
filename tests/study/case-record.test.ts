import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { runJob, type Job, type Runner } from '../../src/record/job.ts';
import { readScenario } from '../../src/scenario/check.ts';
import { shiftsOf } from '../../src/scenario/options.ts';
import { addCaseRows, createCaseRecord, momentsOf, ROWS_KEPT } from '../../src/study/case-record.ts';
import { addRow, createMoments } from '../../src/study/intervals/moments.ts';
import { runStudy } from '../../src/study/study.ts';

const reading = readScenario(readFileSync(new URL('../../scenarios/one-step.json', import.meta.url), 'utf8'));
if (reading.kind === 'wrong') throw new Error(reading.faults[0]!.text);
const shifts = shiftsOf(reading.scenario);

test('The moments of a case are those of its rows one by one, to the last bit, whenever they are asked for', () => {
  const total = ROWS_KEPT + 60;
  const { rows } = runJob({ shifts, from: 0, count: total });
  const record = createCaseRecord(shifts);
  const { size } = record.layouts[0]!;
  const oneByOne = createMoments(size);
  const part = (from: number, count: number): void => {
    addCaseRows(record, [{ from, count, rows: [rows[0]!.slice(from * size, (from + count) * size)] }]);
    for (let row = from; row < from + count; row++) addRow(oneByOne, rows[0]!, row * size);
  };
  // Asked for among the kept rows, then across the last kept one in the middle of a part, then behind it.
  for (const [from, count] of [
    [0, 70],
    [70, 30],
    [100, 320],
    [420, 40],
  ] as const) {
    part(from, count);
    if (from !== 70) expect(momentsOf(record, 0)).toEqual(oneByOne);
  }
  expect(record.count).toBe(total);
});

test('A study asks ahead for its next shifts, but for none that it may turn out not to need', async () => {
  const asked: Job[] = [];
  const told: number[] = [];
  const runner: Runner = {
    width: 2,
    run: (job) => {
      asked.push(job);
      return Promise.resolve(runJob(job));
    },
    close: () => Promise.resolve(),
  };
  const request = {
    cases: [{ id: 'base', name: 'As it is', shifts }],
    pairs: [],
    settings: { first: 60, precision: 0.05, most: 300 },
  };
  const state = await runStudy(request, runner, (look) => {
    told.push(look.stopping.done);
    const furthest = Math.max(...asked.map(({ from, count }) => from + count));
    if (look.stopping.done < 60) expect(furthest).toBeLessThanOrEqual(60);
    else expect(furthest).toBeLessThanOrEqual(look.stopping.needed);
    if (look.stopping.done < 30) expect(furthest).toBeGreaterThan(look.stopping.done);
  });
  expect(state.stopping.needed).toBeGreaterThan(60);
  expect(told.at(-1)).toBe(state.stopping.needed);
  const replications = asked.flatMap(({ from, count }) => Array.from({ length: count }, (_, i) => from + i));
  expect(replications).toEqual(Array.from({ length: state.stopping.needed }, (_, i) => i));
});
