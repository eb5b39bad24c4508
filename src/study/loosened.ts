/**
 * What else could be loosened, one at a time: a rack slot more, hands a tenth quicker, half the rework, five
 * minutes of cure.
 */
import { mergePatch } from '../scenario/merge-patch.ts';
import { curveOf, type Time } from '../duration/time.ts';
import { nameOf, resolve, type ResolvedShift, type ResolvedStep } from '../scenario/resolve.ts';
import type { Scenario } from '../scenario/schema.ts';
import { extrasOf, type Extra } from './one-more.ts';

/** One more of each thing, and everything else that can be loosened: what the limits are made of. */
export const limitsOf = (scenario: Scenario): Extra[] => [...extrasOf(scenario), ...loosenedOf(scenario)];

export function loosenedOf(scenario: Scenario): Extra[] {
  const shift = resolve(scenario);
  return shift.steps.flatMap((step) => [
    ...rackOf(scenario, step),
    ...quickerOf(scenario, shift, step),
    ...reworkOf(scenario, shift, step),
    ...cureOf(scenario, shift, step),
  ]);
}

const quoted = (name: string): string => `“${name}”`;

function extra(
  scenario: Scenario,
  changes: Record<string, unknown>,
  about: Omit<Extra, 'scenario' | 'price'>,
): Extra {
  const { options: _options, ...base } = scenario;
  return { ...about, price: null, scenario: mergePatch(base, changes) as Scenario };
}

function rackOf(scenario: Scenario, { id, name: plain, rack }: ResolvedStep): Extra[] {
  if (rack === null) return [];
  const name = quoted(plain);
  return [
    extra(
      scenario,
      { steps: { [id]: { rack: rack + 1 } } },
      {
        id: `slot-${id}`,
        kind: 'rack slot',
        of: id,
        name: `one more rack slot before ${name}`,
        constraint: `the rack before ${name}`,
      },
    ),
  ];
}

/** A tenth off every product's time at the step, first and repeat visits alike. */
function quickerOf(scenario: Scenario, shift: ResolvedShift, step: ResolvedStep): Extra[] {
  if (step.kind === 'wait') return [];
  const { id } = step;
  const products = Object.fromEntries(
    shift.products.map((product) => [product.id, { factors: { [id]: product.tasks[id]!.factor * 0.9 } }]),
  );
  const name = quoted(step.name);
  return [
    extra(
      scenario,
      { products },
      {
        id: `quicker-${id}`,
        kind: 'quicker',
        of: id,
        name: `${name} a tenth quicker`,
        constraint: `the time ${name} takes`,
      },
    ),
  ];
}

/** By cause: each way back at a step, at half its share. */
function reworkOf(scenario: Scenario, shift: ResolvedShift, { id }: ResolvedStep): Extra[] {
  const { rework: listed } = scenario.steps[id]!;
  if (listed === undefined) return [];
  return listed.map((back, i) => {
    const rework = listed.map((one, j) => (i === j ? { ...one, percent: one.percent / 2 } : one));
    const cause = back.cause === undefined ? '' : ` (${back.cause})`;
    const to = quoted(nameOf(shift.steps, back.to));
    return extra(
      scenario,
      { steps: { [id]: { rework } } },
      {
        id: `rework-${id}-${i + 1}`,
        kind: 'less rework',
        of: id,
        name: `half as much sent back to ${to}${cause}`,
        constraint: `what comes back to ${to}${cause}`,
      },
    );
  });
}

const CURE = 5;

/** Five minutes less and more of a wait. The data sheet sets it; this says what it is worth to ask. */
function cureOf(scenario: Scenario, shift: ResolvedShift, step: ResolvedStep): Extra[] {
  if (step.kind !== 'wait') return [];
  const { id } = step;
  const name = quoted(step.name);
  return (
    [
      [-CURE, 'shorter'],
      [CURE, 'longer'],
    ] as const
  ).flatMap(([minutes, word]) => {
    const time = moved(step.time, minutes);
    if (time === null) return [];
    const products = Object.fromEntries(
      shift.products.flatMap((product) => {
        const task = product.tasks[id]!;
        const own = task.own ? moved(task.time, minutes) : null;
        return own === null ? [] : [[product.id, { times: { [id]: own } }]];
      }),
    );
    return [
      extra(
        scenario,
        { steps: { [id]: { time } }, ...(Object.keys(products).length === 0 ? {} : { products }) },
        {
          id: `cure-${word}-${id}`,
          kind: `cure ${word}`,
          of: id,
          name: `${name} five minutes ${word}, if the data sheet allows`,
          constraint: `the time of ${name}`,
        },
      ),
    ];
  });
}

/** The same time so many minutes later; null where that is no time, or its kind cannot be moved so. */
const moved = (time: Time, minutes: number): Time | null => curveOf(time).later(time, minutes);
