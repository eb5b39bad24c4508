import { readFileSync } from 'node:fs';
import { recordEvents } from '../../src/record/event-record.ts';
import type { EventRow } from '../../src/record/event-row.ts';
import { checkScenario, readScenario } from '../../src/scenario/check.ts';
import { shiftsOf } from '../../src/scenario/options.ts';
import type { Time } from '../../src/duration/time.ts';
import type { Scenario } from '../../src/scenario/schema.ts';
import { compileTime } from '../../src/duration/compile.ts';

export function scenarioOf(name: string): Scenario {
  const reading = readScenario(
    readFileSync(new URL(`../../scenarios/${name}.json`, import.meta.url), 'utf8'),
  );
  if (reading.kind === 'wrong') throw new Error(reading.faults.map((fault) => fault.text).join('\n'));
  const { nextShifts: _next, options: _options, ...scenario } = reading.scenario;
  return scenario;
}

const whole = (time: Time): number => Math.max(1, Math.round(compileTime(time).mean));

/**
 * The scenario with nothing left to chance: whole mean times, nobody away, nothing sent back, one product
 * drawn.
 */
export function withoutChance(scenario: Scenario): Scenario {
  const steps = Object.fromEntries(
    Object.entries(scenario.steps).map(([id, step]) => {
      const { rework: _rework, scrap: _scrap, repeatTime, ...rest } = step;
      return [
        id,
        {
          ...rest,
          time: whole(step.time),
          ...(repeatTime === undefined ? {} : { repeatTime: whole(repeatTime) }),
        },
      ];
    }),
  );
  const people = Object.fromEntries(
    Object.entries(scenario.people).map(([id, { attendance: _attendance, ...person }]) => [id, person]),
  );
  const gear = Object.fromEntries(
    Object.entries(scenario.gear ?? {}).map(([id, { fails: _fails, ...one }]) => [id, one]),
  );
  const products = Object.fromEntries(
    Object.entries(scenario.products ?? {}).map(([id, product], i) => [
      id,
      {
        ...product,
        share: i === 0 ? 1 : 0,
        ...(product.times === undefined
          ? {}
          : {
              times: Object.fromEntries(
                Object.entries(product.times).map(([step, time]) => [step, whole(time)]),
              ),
            }),
      },
    ]),
  );
  const { intake } = scenario;
  const coming = intake?.kind === 'random' ? { intake: { ...intake, gap: whole(intake.gap) } } : {};
  const made = {
    ...scenario,
    ...coming,
    steps,
    people,
    gear,
    ...(scenario.products === undefined ? {} : { products }),
  };
  const reading = checkScenario(made);
  if (reading.kind === 'wrong') throw new Error(reading.faults.map((fault) => fault.text).join('\n'));
  return reading.scenario;
}

export const runOf = (scenario: Scenario, replication = 0): EventRow[] =>
  recordEvents(shiftsOf({ ...scenario, nextShifts: [] }), replication)[0]!;

const TOLD = new Set(['begins', 'ends', 'good', 'cure begins', 'cure ends']);

/**
 * What is done after a minute, in minutes from it, by whom at which step; what is done at one instant in no
 * order.
 */
export function doneAfter(events: readonly EventRow[], minute: number): string[] {
  return events
    .filter((one) => TOLD.has(one.event) && one.time > minute * 60_000)
    .map((one) => ({ at: one.time - minute * 60_000, text: `${one.event} ${one.step} ${one.person}` }))
    .sort((a, b) => a.at - b.at || (a.text < b.text ? -1 : 1))
    .map(({ at, text }) => `${(at / 60_000).toFixed(2)} ${text}`);
}
