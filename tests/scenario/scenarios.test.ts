import { readFileSync, readdirSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import { cautionsFor } from '../../src/scenario/cautions.ts';
import { readScenario } from '../../src/scenario/check.ts';
import { scenarioJsonSchema } from '../../src/scenario/json-schema.ts';
import { resolve } from '../../src/scenario/resolve.ts';
import type { Scenario } from '../../src/scenario/schema.ts';
import { SMALL } from './cells.ts';

const folder = new URL('../../scenarios/', import.meta.url);
const files = readdirSync(folder).filter((name) => name.endsWith('.json'));
const textOf = (name: string): string => readFileSync(new URL(name, folder), 'utf8');

function read(name: string): Scenario {
  const reading = readScenario(textOf(name));
  if (reading.kind === 'wrong') throw new Error(reading.faults.map((fault) => fault.text).join('\n'));
  return reading.scenario;
}

describe('every scenario that comes with the tool', () => {
  it('is there', () => {
    expect(files).toEqual(
      expect.arrayContaining(['cell-k.json', 'chair-works.json', 'door-works.json', 'one-step.json']),
    );
  });

  it.each(files)('%s can be run, and says that it is invented', (name) => {
    const scenario = read(name);
    expect(scenario.invented).toBe(true);
    expect(scenario.about).toMatch(/invented/i);
  });
});

describe('the published JSON Schema', () => {
  const schema = scenarioJsonSchema();
  const validate = new Ajv2020({ strict: false, allErrors: true }).compile(schema);

  it('says which draft it is and what it is of', () => {
    expect(schema).toMatchObject({
      $schema: 'https://json-schema.org/draft/2020-12/schema',
      title: 'Clampwright scenario, format 1',
      type: 'object',
    });
    expect(schema['required']).toEqual(['format', 'name', 'steps', 'people']);
  });

  it.each(files)('lets %s pass an independent validator', (name) => {
    validate(JSON.parse(textOf(name)));
    expect(validate.errors).toBeNull();
  });

  it('refuses what the check refuses by its shape', () => {
    for (const wrong of [
      { ...SMALL, format: 2 },
      { ...SMALL, steps: { fit: { time: -1 } } },
      { ...SMALL, steps: { Fit: { time: 1 } } },
      { ...SMALL, steps: { constructor: { time: 1 } } },
      { ...SMALL, steps: { fit: { time: { quick: 1, usual: 2 } } } },
      { ...SMALL, shift: { start: '6:00' } },
      { ...SMALL, gear: { clamp: { count: 1.5 } } },
      { ...SMALL, extra: 1 },
    ])
      expect(validate(wrong), JSON.stringify(wrong)).toBe(false);
    expect(validate(SMALL)).toBe(true);
  });
});

describe('the chair works', () => {
  const shift = resolve(read('chair-works.json'));

  it('has the crew, the gear and the hours it is described by', () => {
    expect(shift.people.map((person) => [person.name, person.pay, ...person.cover[0]!.steps])).toEqual([
      ['Orla', 28, 'fit'],
      ['Bastian', 20, 'unclamp', 'stage', 'clean'],
      ['Tova', 24, 'unclamp', 'glue', 'clean'],
      ['Ines', 25, 'sand', 'clean'],
      ['Kofi', 22, 'sand'],
      ['Wren', 25, 'check'],
    ]);
    expect(shift.gear.map((gear) => [gear.id, gear.count])).toEqual([
      ['clamp', 2],
      ['stage-bench', 1],
      ['fit-bench', 1],
      ['glue-bench', 1],
      ['unclamp-bench', 1],
      ['clean-bench', 2],
      ['sand-bench', 2],
      ['check-bench', 1],
    ]);
    expect([shift.start, shift.length, shift.tidyUp, shift.allowance, shift.target]).toEqual([
      '06:00',
      510,
      10,
      1.06,
      22,
    ]);
    expect(shift.carryOver.reduce((sum, one) => sum + one.units, 0)).toBe(12);
    expect(shift.people[1]!.skills['fit']!.factor).toBe(1.6);
  });

  it('has Wren at the check when she is not at the timber yard, breaks swallowed', () => {
    expect(shift.people[5]!.offs.map((off) => [off.kind, off.from, off.minutes])).toEqual([
      ['away', 0, 90],
      ['away', 120, 60],
      ['away', 240, 60],
      ['away', 360, 70],
    ]);
  });
});

describe('cautions', () => {
  const topics = (scenario: Scenario): string[] => cautionsFor(scenario).map((one) => one.topic);

  it('stand where they apply, and only there', () => {
    expect(topics(read('one-step.json'))).toEqual(['hours', 'forecast']);
    expect(topics(read('chair-works.json'))).toEqual([
      'cure',
      'hours',
      'vibration',
      'dust',
      'adhesives',
      'lifting',
      'repetition',
      'forecast',
    ]);
    expect(topics(SMALL as Scenario)).toEqual(['cure', 'hours', 'adhesives', 'lifting', 'forecast']);
  });

  it('speak of long hours with overtime, long shifts and long weeks', () => {
    const small = SMALL as Scenario;
    expect(topics({ ...small, shift: { ...small.shift, overtime: { until: 'empty' } } })).toContain(
      'long hours',
    );
    expect(topics({ ...small, shift: { start: '06:00', end: '18:00' } })).toContain('long hours');
    expect(
      topics({ ...small, people: { ...small.people, ada: { covers: ['fit'], hoursThisWeek: 44 } } }),
    ).toContain('long hours');
  });

  it('say who rules, and where figures come from', () => {
    const all = cautionsFor(read('door-works.json'));
    const of = (topic: string): string => {
      const one = all.find((caution) => caution.topic === topic)!;
      return `${one.text} ${one.source ?? ''}`;
    };
    expect(of('cure')).toMatch(/data sheet rules/);
    expect(of('hours')).toMatch(/local law and agreements decide.*29 CFR 778.*Working Time Regulations 1998/);
    expect(of('vibration')).toMatch(/7 m\/s2.*about 1 hour.*2002\/44\/EC/);
    expect(of('forecast')).toMatch(/not a promise; never for ranking people/);
    for (const { text } of all) expect(text).not.toMatch(/\n/);
  });
});
