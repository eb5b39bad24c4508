/**
 * A new measure is one file and one line: everything that shows measures then knows it, and what is left out
 * of it does not compile.
 */
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { runJob } from '../../src/record/job.ts';
import type { layoutOfShift } from '../../src/record/layout.ts';
import type { figuresTable, measuresPage } from '../../src/report/pages/figures.ts';
import type { shiftsOf } from '../../src/scenario/options.ts';
import type { runStudy } from '../../src/study/study.ts';
import type { summarize } from '../../src/study/summary.ts';
import { SourceCopy } from './source-copy.ts';

/** The longest that any unit waited in a line. */
const TOY = `import { heardMeasure } from '../measure.ts';

export const longestWait = heardMeasure({
  name: 'longestWait',
  unit: 'minutes',
  label: 'Longest wait in line',
  description: 'The longest that a unit waited in a line before it was started.',
  day: { kind: 'most' },
  keeps: { longest: 0 },
  hears: {
    start: (kept, _time, _unit, _step, _visit, _person, _second, _duration, waited) => {
      kept.longest = Math.max(kept.longest, waited);
    },
  },
  read: (kept) => kept.longest / 60_000,
});
`;
const FILE = 'src/record/measures/longest-wait.ts';
const LIST = 'src/record/measures.ts';

/** One person, 10 minutes a piece, all there at the start; in the second shift there are fewer of them. */
const CELL = {
  format: 1,
  name: 'toy',
  shift: { start: '06:00', end: '07:00', atEnd: 'put down' },
  steps: { work: { time: { mean: 10, cv: 0 } } },
  people: { ana: { covers: ['work'] } },
  intake: { kind: 'at start', units: 3 },
  nextShifts: [{ changes: { intake: { units: 2 } } }],
};

const ENTRY = `export { runJob } from './record/job.ts';
export { layoutOfShift } from './record/layout.ts';
export { scalarAt } from './record/report.ts';
export { shiftsOf } from './scenario/options.ts';
export { runStudy } from './study/study.ts';
export { summarize } from './study/summary.ts';
export { figuresTable, measuresPage } from './report/pages/figures.ts';
`;

interface Exports {
  runJob: typeof runJob;
  layoutOfShift: typeof layoutOfShift;
  scalarAt: (layout: unknown, name: string) => number;
  shiftsOf: (scenario: unknown) => ReturnType<typeof shiftsOf>;
  runStudy: typeof runStudy;
  summarize: typeof summarize;
  figuresTable: typeof figuresTable;
  measuresPage: typeof measuresPage;
}

/** The toy with a part left out or wrong, each in a file of its own. */
const wrongToys = [
  { what: 'no day rule', from: "  day: { kind: 'most' },\n", to: '' },
  { what: 'no unit', from: "  unit: 'minutes',\n", to: '' },
  { what: 'no description', from: / {2}description: .*\n/, to: '' },
  { what: 'no label', from: / {2}label: .*\n/, to: '' },
  { what: 'nothing that a shift begins with', from: '  keeps: { longest: 0 },\n', to: '' },
  { what: 'no value', from: / {2}read: .*\n/, to: '' },
  { what: 'a day rule there is not', from: "kind: 'most'", to: "kind: 'middle'" },
  { what: 'a fact there is not', from: 'start: (kept', to: 'begun: (kept' },
  { what: 'a count it does not keep', from: 'kept.longest / ', to: 'kept.longst / ' },
].map(({ what, from, to }) => {
  const text = TOY.replace(from, to);
  if (text === TOY) throw new Error(`nothing is changed for ${what}`);
  return { what, text, path: FILE.replace('longest-wait', what.replaceAll(' ', '-')) };
});

const STATES = 'src/engine/states.ts';
const CODES = 'src/core/codes.ts';
const ALIKE = 'src/engine/alike.ts';
const ALIKE_CODES = 'src/core/alike-codes.ts';
const WORDLESS = 'src/engine/wordless.ts';

let copy: SourceCopy;
let faults: Map<string, string[]>;
beforeAll(() => {
  copy = new SourceCopy();
  copy.write(FILE, TOY);
  copy.addLine(
    LIST,
    '  longestWait,',
    '] as const satisfies readonly Measure[];',
    "import { longestWait } from './measures/longest-wait.ts';",
  );
  for (const { path, text } of wrongToys) copy.write(path, text);
  const states = copy.read(STATES);
  copy.write(ALIKE_CODES, copy.read(CODES));
  copy.replace(ALIKE_CODES, 'export const GONE = 1;', 'export const GONE = 0;');
  copy.write(ALIKE, states.replaceAll('codes.ts', 'alike-codes.ts'));
  copy.write(WORDLESS, states.replace(/ {2}\[NO_COVER\]: .*\n/, ''));
  faults = copy.faults(FILE, LIST, ...wrongToys.map(({ path }) => path), STATES, ALIKE, WORDLESS);
});
afterAll(() => copy.remove());

describe('a measure added as one file and one line', () => {
  test('compiles, it and the table', () => {
    expect([faults.get(FILE), faults.get(LIST)]).toEqual([[], []]);
  });

  test('stands in the row, the day, the JSON, the printed table and the list, and begins every shift anew', async () => {
    await copy.bundled<Exports, void>('src/toy-entry.ts', ENTRY, async (made) => {
      const shifts = made.shiftsOf(CELL);
      const { rows } = made.runJob({ shifts, from: 0, count: 2 });
      const inRow = (shift: number, replication: number): number => {
        const layout = made.layoutOfShift(shifts[shift]!);
        return rows[shift]![replication * layout.size + made.scalarAt(layout, 'longestWait')]!;
      };
      // The third of three waits 20 minutes, the second of two 10: nothing of one shift is left in another.
      expect([inRow(0, 0), inRow(1, 0), inRow(0, 1), inRow(1, 1)]).toEqual([20, 10, 20, 10]);

      const runner = {
        width: 1,
        run: (job: Parameters<Exports['runJob']>[0]) => Promise.resolve(made.runJob(job)),
        close: () => Promise.resolve(),
      };
      const request = {
        cases: [{ id: 'base', name: 'As it is', shifts }],
        pairs: [],
        settings: {},
        count: 3,
      };
      const study = made.summarize(await made.runStudy(request, runner));
      const json = JSON.parse(JSON.stringify(study)) as {
        measures: { name: string }[];
        cases: { measures: Record<string, { estimate: number }> }[];
      };
      expect(json.cases[0]!.measures['longestWait']).toMatchObject({ estimate: 20, half: 0 });
      expect(json.measures.find(({ name }) => name === 'longestWait')).toEqual({
        name: 'longestWait',
        unit: 'minutes',
        label: 'Longest wait in line',
        description: 'The longest that a unit waited in a line before it was started.',
        overShifts: 'the most of any shift',
      });
      expect(JSON.stringify(made.figuresTable(study.cases[0]!, 2, '$'))).toContain(
        JSON.stringify(['Longest wait in line', '20 min', 'always', 'any shift']),
      );
      expect(JSON.stringify(made.measuresPage())).toContain('longestWait');
    });
  });

  test('does not compile with any part of it left out or wrong', () => {
    expect(wrongToys.filter(({ path }) => faults.get(path)!.length === 0)).toEqual([]);
  });
});

describe('states of people', () => {
  test('do not compile where two share a number, or one has no words', () => {
    expect(faults.get(STATES)).toEqual([]);
    expect(faults.get(ALIKE)!.join()).toMatch(/multiple properties with the same name/);
    expect(faults.get(WORDLESS)!.join()).toMatch(/'10' is missing/);
  });
});
