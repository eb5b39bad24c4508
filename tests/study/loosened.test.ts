import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { checkScenario } from '../../src/scenario/check.ts';
import type { Scenario } from '../../src/scenario/schema.ts';
import { limitsOf, loosenedOf } from '../../src/study/loosened.ts';

const scenario = (name: string): Scenario =>
  JSON.parse(readFileSync(new URL(`../../scenarios/${name}.json`, import.meta.url), 'utf8')) as Scenario;

describe('what can be loosened', () => {
  it.each(['chair-works', 'door-works', 'cell-k', 'one-step'])(
    'leaves %s a cell that can run, every case with an id of its own',
    (name) => {
      const all = limitsOf(scenario(name));
      expect(new Set(all.map((one) => one.id)).size).toBe(all.length);
      for (const one of all) expect(checkScenario(one.scenario), one.name).toMatchObject({ kind: 'fine' });
    },
  );

  it('moves the cure by five minutes both ways, rack slots by one, hands by a tenth, each way back by half', () => {
    const base = scenario('chair-works');
    const by = (id: string): Scenario => loosenedOf(base).find((one) => one.id === id)!.scenario;
    expect(by('cure-shorter-cure').steps['cure']!.time).toBe(25);
    expect(by('cure-longer-cure').steps['cure']!.time).toBe(35);
    expect(by('slot-glue').steps['glue']!.rack).toBe(5);
    expect(by('quicker-fit').products!['bent']!.factors!['fit']).toBeCloseTo(0.9, 12);
    expect(by('rework-check-1').steps['check']!.rework).toEqual([
      { to: 'sand', percent: 4, cause: 'scratch' },
      { to: 'clean', percent: 3, cause: 'glue' },
    ]);
    expect(by('rework-check-2').steps['check']!.rework![1]!.percent).toBe(1.5);
  });

  it('says at every change of a cure that the data sheet decides', () => {
    for (const one of loosenedOf(scenario('door-works')).filter(({ kind }) => kind.startsWith('cure')))
      expect(one.name).toContain('if the data sheet allows');
  });

  it('offers no shorter cure where nothing of it would be left', () => {
    const base = scenario('chair-works');
    const quick: Scenario = { ...base, steps: { ...base.steps, cure: { kind: 'wait', time: 5 } } };
    expect(loosenedOf(quick).map((one) => one.id)).not.toContain('cure-shorter-cure');
    expect(loosenedOf(quick).map((one) => one.id)).toContain('cure-longer-cure');
  });
});
