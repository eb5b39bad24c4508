/** What an option can change in place: one field each, read off a scenario and written as a change to it. */
import { DEFAULTS } from '../../../src/scenario/defaults.ts';
import { benchesOf } from '../../../src/scenario/resolve.ts';
import type { Scenario, Step } from '../../../src/scenario/schema.ts';
import { meanOf, withMean } from '../common/times.ts';

export type Changes = Record<string, unknown>;

interface Common {
  id: string;
  label: string;
  hint?: string;
}

export interface NumberField extends Common {
  kind: 'number';
  unit: string;
  whole: boolean;
  least: number;
  most: number;
  step: number;
  /** Null: as usual, in the words of `usual`. Left out: it always has a value. */
  usual?: string;
  read(scenario: Scenario): number | null;
  /** @param scenario the cell with the option as it stands. @param base the cell as it is. */
  write(scenario: Scenario, value: number | null, base: Scenario): Changes;
}

export interface ToggleField extends Common {
  kind: 'toggle';
  read(scenario: Scenario): boolean;
  write(scenario: Scenario, value: boolean, base: Scenario): Changes;
}

export type Field = NumberField | ToggleField;

export interface FieldGroup {
  name: string;
  fields: Field[];
}

const MINUTES = { kind: 'number', unit: 'min', whole: false, least: 0, most: 100_000, step: 1 } as const;
const COUNT = { kind: 'number', whole: true, least: 0, most: 1000, step: 1 } as const;

/** Everything simple that a checked scenario lets one change, in the order of the work. */
export function fieldsOf(scenario: Scenario): FieldGroup[] {
  const steps = Object.entries(scenario.steps);
  const groups = [
    {
      name: 'Clamp sets, benches and racks',
      fields: [...gearFields(scenario), ...steps.flatMap(benchFields), ...steps.flatMap(rackFields)],
    },
    {
      name: 'People',
      fields: Object.entries(scenario.people).map(([id, person]) => personField(id, person.name ?? id)),
    },
    { name: 'Times', fields: [...steps.map(timeField), allowance] },
    { name: 'The shift and overtime', fields: [target, overtime, tidyUp] },
    { name: 'What comes in', fields: intakeFields(scenario) },
  ];
  return groups.filter((group) => group.fields.length > 0);
}

const gearFields = (scenario: Scenario): Field[] =>
  Object.entries(scenario.gear ?? {}).map(([id, gear]): NumberField => ({
    ...COUNT,
    id: `gear-${id}`,
    label: gear.name ?? id,
    unit: '',
    read: (one) => one.gear?.[id]?.count ?? 0,
    write: (_, value) => ({ gear: { [id]: { count: value ?? 0 } } }),
  }));

function benchFields([id, step]: [string, Step]): Field[] {
  if (benchesOf(step) === 0) return [];
  const field: NumberField = {
    ...COUNT,
    id: `benches-${id}`,
    label: `Benches: ${step.name ?? id}`,
    unit: '',
    least: 1,
    read: (one) => (one.steps[id] === undefined ? 0 : benchesOf(one.steps[id])),
    write: (_, value) => ({ steps: { [id]: { benches: value ?? 1 } } }),
  };
  return [field];
}

function rackFields([id, step]: [string, Step]): Field[] {
  if (step.kind === 'wait' || typeof step.rack !== 'number') return [];
  const field: NumberField = {
    ...COUNT,
    id: `rack-${id}`,
    label: `Rack before: ${step.name ?? id}`,
    unit: 'slots',
    read: (one) => one.steps[id]?.rack ?? 0,
    write: (_, value) => ({ steps: { [id]: { rack: value ?? 0 } } }),
  };
  return [field];
}

const personField = (id: string, name: string): ToggleField => ({
  kind: 'toggle',
  id: `in-${id}`,
  label: `${name} is in`,
  read: (one) => one.people[id] !== undefined && one.people[id].attendance?.percent !== 0,
  write: (_, value, base) => {
    const usual = base.people[id]?.attendance;
    return {
      people: {
        [id]: {
          attendance: value
            ? usual === undefined || usual.percent === 0
              ? null
              : { percent: null, ...usual }
            : { percent: 0 },
        },
      },
    };
  },
});

function timeField([id, step]: [string, Step]): NumberField {
  const wait = step.kind === 'wait';
  return {
    ...MINUTES,
    id: `time-${id}`,
    label: step.name ?? id,
    least: 0.1,
    step: wait ? 5 : 0.5,
    hint: wait ? 'At least what the adhesive’s data sheet says.' : 'On average; its spread goes along.',
    read: (one) => (one.steps[id] === undefined ? 0 : meanOf(one.steps[id].time)),
    write: (one, value) => ({ steps: { [id]: { time: withMean(one.steps[id]!.time, value ?? 0.1) } } }),
  };
}

const allowance: NumberField = {
  kind: 'number',
  id: 'allowance',
  label: 'Allowance on all hands times',
  unit: 'times',
  whole: false,
  least: 1,
  most: 3,
  step: 0.01,
  read: (one) => one.shift?.allowance ?? 1,
  write: (_, value) => ({ shift: { allowance: value ?? 1 } }),
};

const target: NumberField = {
  ...COUNT,
  id: 'target',
  label: 'Target',
  unit: 'units',
  most: 100_000,
  usual: 'none',
  read: (one) => one.shift?.target ?? null,
  write: (_, value) => ({ shift: { target: value } }),
};

const overtime: NumberField = {
  ...MINUTES,
  id: 'overtime',
  label: 'Overtime, at most',
  step: 5,
  most: 720,
  hint: 'Until the target is made, or the cell is empty where there is none. Local law and agreements decide what may be worked.',
  read: ({ shift }) =>
    (shift?.overtime?.until ?? DEFAULTS.shift.overtime.until) === 'none'
      ? 0
      : (shift?.overtime?.cap ?? DEFAULTS.shift.overtime.cap),
  write: (one, value) => {
    const { until = 'none' } = one.shift?.overtime ?? {};
    if (value === null || value === 0) return { shift: { overtime: { until: 'none' } } };
    return {
      shift: {
        overtime: {
          until: until === 'none' ? (typeof one.shift?.target === 'number' ? 'target' : 'empty') : until,
          cap: value,
        },
      },
    };
  },
};

const tidyUp: NumberField = {
  ...MINUTES,
  id: 'tidy-up',
  label: 'Tidying up at the end',
  step: 5,
  most: 480,
  read: (one) => one.shift?.tidyUp ?? 0,
  write: (_, value) => ({ shift: { tidyUp: value ?? 0 } }),
};

function intakeFields({ intake }: Scenario): Field[] {
  const late: NumberField = {
    ...MINUTES,
    id: 'late',
    label: 'Everything comes late by',
    step: 10,
    most: 1440,
    read: (one) => one.intake?.late ?? 0,
    write: (_, value) => ({ intake: { late: value ?? 0 } }),
  };
  const every: NumberField = {
    ...MINUTES,
    id: 'every',
    label: 'One unit every',
    least: 0.1,
    read: (one) => (one.intake?.kind === 'beat' ? one.intake.every : 0),
    write: (_, value) => ({ intake: { every: value ?? 1 } }),
  };
  const units: NumberField = {
    ...COUNT,
    id: 'units',
    label: 'Units at the start',
    unit: 'units',
    most: 100_000,
    read: (one) => (one.intake?.kind === 'at start' ? one.intake.units : 0),
    write: (_, value) => ({ intake: { units: value ?? 0 } }),
  };
  switch (intake?.kind) {
    case undefined:
      return [];
    case 'beat':
      return [late, every];
    case 'at start':
      return [units];
    default:
      return [late];
  }
}
