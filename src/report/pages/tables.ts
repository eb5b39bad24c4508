/** The tables under an answer: lines, people, gear, rework, of one shift of one case. */
import { FREE, OUT_OF_ORDER, personPresence, workingAt } from '../../engine/states.ts';
import type { Block } from '../../document/document.ts';
import { gearStateWords, personStateWords } from '../../words/states.ts';
import { duration, fixed, percent } from '../../words/words.ts';
import type { ResolvedShift } from '../../scenario/resolve.ts';
import { overtimeTables } from './overtime-table.ts';
import type { ShiftSummary } from '../../study/shift-summary.ts';

/** States under this are left out: half a minute a shift. */
const WORTH_SHOWING = 0.5;
const minutes = (value: number): string => fixed(value, value > 0 && value < 9.95 ? 1 : 0);

export function shiftTables(shift: ShiftSummary, resolved: ResolvedShift): Block[] {
  return [
    lineTable(shift, resolved),
    peopleTable(shift, resolved),
    ...overtimeTables(shift, resolved),
    ...gearTables(shift, resolved),
    ...reworkTable(shift, resolved),
    ...datedWords(shift),
  ];
}

function lineTable(shift: ShiftSummary, resolved: ResolvedShift): Block {
  const worked = (step: number): number =>
    shift.people.reduce((sum, person) => {
      const state = workingAt(resolved.gear.length, step);
      return sum + person.minutes[state]! + person.overtime[state]!;
    }, 0);
  const rows = resolved.steps.flatMap((step, index): string[][] => {
    if (step.kind === 'wait') return [];
    const line = shift.lines.find((one) => one.step === step.id)!;
    const wait = shift.waitedPerUnit[index]!.minutes;
    return [
      [
        step.name,
        step.rack === null ? 'no limit' : String(step.rack),
        fixed(line.mean.estimate, 1),
        String(line.most),
        minutes(wait),
        minutes(worked(index)),
      ],
    ];
  });
  return {
    kind: 'table',
    caption: 'The lines: units waiting for each step, on average and at most; minutes a shift.',
    head: ['Step', 'Rack', 'In line', 'At most', 'Waits each', 'Worked'],
    rows,
    align: ['left', 'right', 'right', 'right', 'right', 'right'],
  };
}

function peopleTable(shift: ShiftSummary, resolved: ResolvedShift): Block {
  const rows = shift.people.map((person, index) => {
    const states = person.minutes.map((value, state) => ({
      state,
      value: value + person.overtime[state]!,
      ...personStateWords(state, resolved),
    }));
    const sum = (kind: 'work' | 'idle'): number =>
      states.filter((one) => one.kind === kind).reduce((total, one) => total + one.value, 0);
    const by = (presence: 'off' | 'gone'): number =>
      states
        .filter(({ state }) => personPresence(state) === presence)
        .reduce((total, one) => total + one.value, 0);
    const [off, absent] = [by('off'), by('gone')];
    const why = states
      .filter((one) => one.kind === 'idle' && one.value >= WORTH_SHOWING)
      .sort((a, b) => b.value - a.value);
    const reasons = why.map((one) => `${one.words} ${minutes(one.value)}`);
    return [
      resolved.people[index]!.name,
      minutes(sum('work')),
      minutes(sum('idle')),
      minutes(off),
      minutes(person.overtimeMinutes.estimate),
      [...reasons, ...(absent >= resolved.length / 2 ? ['not in'] : [])].join(', ') || '-',
    ];
  });
  return {
    kind: 'table',
    caption:
      'The people: minutes a shift, and why they were without work. This describes the plan, not the person.',
    head: ['Person', 'Working', 'No work', 'Break, away', 'Overtime', 'Without work because'],
    rows,
    align: ['left', 'right', 'right', 'right', 'right', 'left'],
  };
}

/** Gear by state, waiting for hands on its own; benches in a line each. */
function gearTables(shift: ShiftSummary, resolved: ResolvedShift): Block[] {
  const gear = shift.gear.map((one, index) => ({ ...one, index, resolved: resolved.gear[index]! }));
  const listed = gear.filter((one) => one.resolved.kind === 'gear');
  const benches = gear.filter((one) => one.resolved.kind === 'bench');
  return [
    ...listed.map((one): Block => gearTable([{ shift, resolved, label: 'minutes' }], one.index)),
    ...(benches.length === 0 ? [] : [benchTable(benches, resolved)]),
  ];
}

export interface GearColumn {
  shift: ShiftSummary;
  resolved: ResolvedShift;
  /** Above the column. */
  label: string;
}

/**
 * The minutes of one kind of gear by state, a column for each case; minutes of one piece, and its share of
 * the shift.
 */
export function gearTable(columns: GearColumn[], gear: number): Block {
  const { resolved } = columns[0]!;
  const { name } = resolved.gear[gear]!;
  const each = columns.map(({ shift }) => {
    const { minutes: all, count } = shift.gear[gear]!;
    return { all, count: Math.max(1, count), length: shift.scalars.length.estimate };
  });
  const states = each[0]!.all.flatMap((_, state) =>
    each.some(({ all, count }) => all[state]! / count >= WORTH_SHOWING) ? [state] : [],
  );
  const ordered = [
    ...states.filter((state) => state !== FREE && state !== OUT_OF_ORDER),
    ...states.filter((state) => state === FREE || state === OUT_OF_ORDER),
  ];
  const rows = ordered.map((state) => [
    gearStateWords(state, gear, resolved).words,
    ...each.map(
      ({ all, count, length }) =>
        `${minutes(all[state]! / count)} (${percent(all[state]! / count / length)})`,
    ),
  ]);
  return {
    kind: 'table',
    caption: `What a ${name} does: minutes a shift of each, and the share of the shift.`,
    head: ['', ...columns.map(({ label }) => label)],
    rows,
    align: ['left', ...columns.map((): 'right' => 'right')],
  };
}

function benchTable(
  benches: { minutes: number[]; count: number; index: number; resolved: { name: string } }[],
  resolved: ResolvedShift,
): Block {
  const rows = benches.map(({ minutes: all, count, index, resolved: { name } }) => {
    const sum = (...kinds: string[]): number =>
      all.reduce(
        (total, value, state) =>
          value > 0 && kinds.includes(gearStateWords(state, index, resolved).kind) ? total + value : total,
        0,
      ) / Math.max(1, count);
    return [
      name,
      String(count),
      minutes(sum('work')),
      minutes(sum('idle')),
      minutes(sum('free')),
      ...(sum('away') > 0 ? [`out of order ${minutes(sum('away'))}`] : ['']),
    ];
  });
  const anyOut = rows.some((row) => row[5] !== '');
  return {
    kind: 'table',
    caption:
      'The benches: minutes a shift of each. Held: by a piece that has nowhere to go, or was put down.',
    head: ['Bench', 'How many', 'In use', 'Held', 'Free', ...(anyOut ? ['Out'] : [])],
    rows: anyOut ? rows : rows.map((row) => row.slice(0, 5)),
    align: ['left', 'right', 'right', 'right', 'right', 'left'],
  };
}

/** What is due, and what has come back; nothing where the cell knows neither. */
function datedWords({ scalars: { dated, late, returned } }: ShiftSummary): Block[] {
  const said = [
    ...(dated.estimate > 0
      ? [`Of ${fixed(dated.estimate, 1)} good units with a due time ${fixed(late.estimate, 1)} are out late.`]
      : []),
    ...(returned.estimate > 0
      ? [
          `${fixed(returned.estimate, 1)} returned pieces are out again a shift; they were counted before and are in no figure of good units.`,
        ]
      : []),
  ];
  return said.length === 0 ? [] : [{ kind: 'paragraph', text: said.join(' ') }];
}

function reworkTable(shift: ShiftSummary, resolved: ResolvedShift): Block[] {
  if (shift.rework.length === 0) return [];
  const nameOf = (id: string): string => resolved.steps.find((step) => step.id === id)?.name ?? id;
  const { firstPassYield, scrap } = shift.scalars;
  return [
    {
      kind: 'table',
      caption: 'Sent back, units a shift.',
      head: ['After', 'Back to', 'Because', 'A shift'],
      rows: shift.rework.map((one) => [nameOf(one.step), nameOf(one.to), one.cause, fixed(one.perShift, 2)]),
      align: ['left', 'left', 'left', 'right'],
    },
    {
      kind: 'paragraph',
      text: `Right the first time: ${Number.isNaN(firstPassYield.estimate) ? 'unknown' : percent(firstPassYield.estimate)} of finished units; ${fixed(scrap.estimate, 2)} scrapped a shift. ${throughWords(shift)}`,
    },
  ];
}

/**
 * What stood there in the morning had part of its way behind it, so the mean over all says too little of a
 * piece that comes in today.
 */
function throughWords({ scalars: { good, newGood, newLead, leadMean, flowMean } }: ShiftSummary): string {
  if (Number.isNaN(leadMean.estimate)) return '';
  const start = `${duration(flowMean.estimate)} from the first start`;
  if (newGood.estimate === good.estimate)
    return `Time through the cell: ${duration(leadMean.estimate)} from arrival, ${start}.`;
  const stock = `with what stood there at the start, ${duration(leadMean.estimate)} from arrival and ${start}`;
  return newGood.estimate === 0
    ? `Nothing that came in this shift got through it; ${stock}.`
    : `Time through the cell of what came in this shift and got through in it (${fixed(newGood.estimate, 1)} a shift): ${duration(newLead.estimate)} from arrival; ${stock}.`;
}
