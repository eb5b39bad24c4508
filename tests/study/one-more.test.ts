import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { checkScenario, readScenario } from '../../src/scenario/check.ts';
import { shiftsOf } from '../../src/scenario/options.ts';
import type { Scenario } from '../../src/scenario/schema.ts';
import { askOneMore } from '../../src/study/clamp-question.ts';
import { around } from '../../src/study/intervals/interval.ts';
import { moreGear } from '../../src/scenario/changing/more.ts';
import { constraintOf, extrasOf, type ExtraGain, type Lead } from '../../src/study/one-more.ts';
import { inLineRunner } from '../../src/work/in-line.ts';

function scenario(name: string): Scenario {
  const reading = readScenario(
    readFileSync(new URL(`../../scenarios/${name}.json`, import.meta.url), 'utf8'),
  );
  if (reading.kind === 'wrong') throw new Error(reading.faults[0]!.text);
  return reading.scenario;
}

describe('one more of each thing', () => {
  it.each(['chair-works', 'door-works', 'cell-k', 'one-step'])(
    'is a scenario the check lets pass, for every extra of %s',
    (name) => {
      for (const extra of extrasOf(scenario(name))) {
        const reading = checkScenario(extra.scenario);
        expect(
          reading.kind === 'wrong' ? [extra.id, ...reading.faults.map((fault) => fault.text)] : [],
        ).toEqual([]);
      }
    },
  );

  it('is one piece of gear, one bench or one person more, and nothing else', () => {
    const base = scenario('chair-works');
    const before = shiftsOf(base)[0]!;
    for (const extra of extrasOf(base)) {
      const after = shiftsOf(extra.scenario)[0]!;
      const more = after.gear.reduce((sum, one, i) => sum + one.count - before.gear[i]!.count, 0);
      const people = after.people.length - before.people.length;
      if (extra.kind === 'person') expect([more, people]).toEqual([0, 1]);
      else if (extra.kind === 'person with bench') expect(people).toBe(1);
      else expect([more, people]).toEqual([1, 0]);
    }
  });

  it('is the same person once more, last in crew order', () => {
    const extra = extrasOf(scenario('chair-works')).find((one) => one.id === 'person-orla')!;
    const { people } = shiftsOf(extra.scenario)[0]!;
    expect(people.at(-1)).toEqual({ ...people[0]!, id: 'orla-2', name: 'a second Orla' });
  });

  it('leaves out who does not come at all', () => {
    const base = scenario('chair-works');
    const out: Scenario = {
      ...base,
      people: { ...base.people, orla: { ...base.people['orla']!, attendance: { percent: 0 } } },
    };
    expect(extrasOf(out).map((one) => one.id)).not.toContain('person-orla');
  });

  it('holds in the shifts that follow: gear they count themselves, and a person who is not there in the evening', () => {
    const base = scenario('door-works');
    const counted: Scenario = {
      ...base,
      nextShifts: [{ changes: { gear: { 'rest-slot': { count: 20 } }, people: { lene: null } } }],
    };
    expect(
      shiftsOf(moreGear(counted, 'rest-slot', 2)).map(
        (shift) => shift.gear.find((one) => one.id === 'rest-slot')!.count,
      ),
    ).toEqual([10, 22]);
    const twin = extrasOf(counted).find((one) => one.id === 'person-lene')!;
    expect(
      shiftsOf(twin.scenario).map((shift) => shift.people.filter((one) => one.id.startsWith('lene')).length),
    ).toEqual([2, 0]);
  });
});

describe('what holds the cell back', () => {
  const row = (kind: ExtraGain['kind'], of: string, estimate: number, half = 0.2): ExtraGain => ({
    id: `${kind}-${of}`,
    kind,
    of,
    name: of,
    constraint: `${kind} ${of}`,
    price: null,
    gain: around(estimate, half, 200, 0.95),
  });
  /** Differences known to within so much either way. */
  const within =
    (half: number): Lead =>
    (best, other) =>
      around(best.gain.estimate - other.gain.estimate, half, 200, 0.95);

  it('is what gains most, where it surely gains what matters', () => {
    expect(constraintOf([row('gear', 'clamp', 3), row('person', 'orla', 0.9)], 0.5, within(0.3))).toEqual([
      'gear clamp',
    ]);
  });

  it('is nothing where nothing surely gains what matters', () => {
    expect(constraintOf([row('gear', 'clamp', 0.6), row('person', 'orla', 0.1)], 0.5, within(0.3))).toEqual(
      [],
    );
    expect(constraintOf([], 0.5, within(0.3))).toEqual([]);
  });

  it('is several things where they cannot be told apart', () => {
    expect(constraintOf([row('gear', 'clamp', 1.1), row('person', 'orla', 1)], 0.5, within(0.3))).toEqual([
      'gear clamp',
      'person orla',
    ]);
  });

  it('is one alone where wide ranges lie over each other and the difference does not', () => {
    const rows = [row('gear', 'clamp', 3, 1.2), row('person', 'orla', 2, 1.2)];
    expect(constraintOf(rows, 0.5, within(0.3))).toEqual(['gear clamp']);
    expect(constraintOf(rows, 0.5, within(1.1))).toEqual(['gear clamp', 'person orla']);
  });

  it('is the person alone where benches add nothing that can be seen', () => {
    expect(
      constraintOf([row('person with bench', 'orla', 1.1), row('person', 'orla', 1)], 0.5, within(0.3)),
    ).toEqual(['person orla']);
  });
});

describe('the clamp question', () => {
  it('is answered by fixed times that can be worked out by hand: N sets make N cures in a row, as long as hands last', async () => {
    // One minute to load, 58 to cure, one to unclamp: a set comes round once an hour, the next one a minute
    // behind it: eight times each by 14:04.
    const cell: Scenario = {
      format: 1,
      name: 'By hand',
      steps: {
        glue: { time: 1, takes: [{ gear: 'clamp', until: 'unclamp' }] },
        cure: { kind: 'wait', time: 58 },
        unclamp: { time: 1 },
      },
      gear: { clamp: { count: 2 } },
      people: { ada: { covers: ['glue'] }, ben: { covers: ['unclamp'] } },
      shift: { start: '06:00', end: '14:06' },
    };
    const answer = await askOneMore(cell, 'clamp', inLineRunner(), { count: 4 });
    expect(answer.study.cases.map((one) => one.good.estimate)).toEqual([16, 24, 32]);
    expect(answer.verdict).toEqual({ kind: 'eases' });
    expect(answer.then!.withOneMore).toBe(true);
    expect(answer.then!.constraint).toEqual(['the number of clamps']);
  });

  it('refuses gear the file does not have', async () => {
    await expect(askOneMore(scenario('chair-works'), 'jig', inLineRunner())).rejects.toThrow(
      /There is no gear "jig" in this file; it has clamp/,
    );
  });

  it('gives no verdict on what was stopped', async () => {
    const stop = new AbortController();
    const answer = await askOneMore(
      scenario('chair-works'),
      'clamp',
      inLineRunner(),
      { count: 100_000 },
      () => stop.abort(),
      stop.signal,
    );
    expect(answer.study.kind).toBe('partial');
    expect(answer.study.count).toBeGreaterThan(0);
    expect([answer.verdict, answer.then]).toEqual([null, null]);
  });
});
