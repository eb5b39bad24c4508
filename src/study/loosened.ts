/**
 * What else could be loosened, one at a time: a rack slot more, hands a tenth quicker, half the rework, five
 * minutes of cure.
 */
import { mergePatch } from '../scenario/merge-patch.ts';
import { curveOf, type Time } from '../duration/time.ts';
import type { Scenario, Step } from '../scenario/schema.ts';
import { extrasOf, type Extra } from './one-more.ts';

/** One more of each thing, and everything else that can be loosened: what the limits are made of. */
export const limitsOf = (scenario: Scenario): Extra[] => [...extrasOf(scenario), ...loosenedOf(scenario)];

export function loosenedOf(scenario: Scenario): Extra[] {
  return Object.entries(scenario.steps).flatMap(([id, step]) => [
    ...rackOf(scenario, id, step),
    ...quickerOf(scenario, id, step),
    ...reworkOf(scenario, id, step),
    ...cureOf(scenario, id, step),
  ]);
}

const nameOf = (id: string, step: Step): string => `“${step.name ?? id}”`;

function extra(
  scenario: Scenario,
  changes: Record<string, unknown>,
  about: Omit<Extra, 'scenario' | 'price'>,
): Extra {
  const { options: _options, ...base } = scenario;
  return { ...about, price: null, scenario: mergePatch(base, changes) as Scenario };
}

function rackOf(scenario: Scenario, id: string, step: Step): Extra[] {
  if (step.rack === undefined || step.rack === null) return [];
  const name = nameOf(id, step);
  return [
    extra(
      scenario,
      { steps: { [id]: { rack: step.rack + 1 } } },
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
function quickerOf(scenario: Scenario, id: string, step: Step): Extra[] {
  if (step.kind === 'wait') return [];
  const products = Object.fromEntries(
    Object.entries(scenario.products ?? { piece: {} }).map(([product, one]) => [
      product,
      { factors: { [id]: (one.factors?.[id] ?? 1) * 0.9 } },
    ]),
  );
  const name = nameOf(id, step);
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
function reworkOf(scenario: Scenario, id: string, step: Step): Extra[] {
  return (step.rework ?? []).map((back, i) => {
    const rework = step.rework!.map((one, j) => (i === j ? { ...one, percent: one.percent / 2 } : one));
    const cause = back.cause === undefined ? '' : ` (${back.cause})`;
    const to = nameOf(back.to, scenario.steps[back.to]!);
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
function cureOf(scenario: Scenario, id: string, step: Step): Extra[] {
  if (step.kind !== 'wait') return [];
  const name = nameOf(id, step);
  return (
    [
      [-CURE, 'shorter'],
      [CURE, 'longer'],
    ] as const
  ).flatMap(([minutes, word]) => {
    const time = moved(step.time, minutes);
    if (time === null) return [];
    const products = Object.fromEntries(
      Object.entries(scenario.products ?? {}).flatMap(([product, one]) => {
        const own = one.times?.[id] === undefined ? null : moved(one.times[id], minutes);
        return own === null ? [] : [[product, { times: { [id]: own } }]];
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
