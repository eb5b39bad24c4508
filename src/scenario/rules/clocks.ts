/** Clock times lie in the shift (with overtime: up to its cap), in order, and do not overlap. */
import { clockOfMinutes, minutesAfter } from '../clock.ts';
import { inMinutes, type Place } from '../reading/fault.ts';
import type { Step } from '../schema.ts';
import { rulesOf } from '../step-rules.ts';
import { fault, type Cell } from './cell.ts';

export function clocks(cell: Cell): void {
  shiftClocks(cell);
  for (const id of Object.keys(cell.scenario.people)) personClocks(cell, id);
  for (const [id, step] of Object.entries(cell.scenario.steps)) {
    stepClocks(cell, id, step);
  }
  for (const [id, gear] of Object.entries(cell.scenario.gear ?? {})) {
    (gear.out ?? []).forEach((one, i) => {
      within(cell, ['gear', id, 'out', i, 'from'], one.from);
      if ((one.items ?? 1) > gear.count) {
        fault(
          cell,
          ['gear', id, 'out', i, 'items'],
          `${one.items ?? 1} out of order`,
          `at most the ${gear.count} there are`,
          'lower it, or raise "count"',
        );
      }
    });
  }
  const { intake, holds } = cell.scenario;
  if (intake?.kind === 'list') {
    // There may be a hundred thousand, mostly at the same few times.
    const inside = new Map<string, boolean>();
    intake.arrivals.forEach(({ at }, i) => {
      if (!inside.has(at)) inside.set(at, isWithin(cell, at));
      if (inside.get(at) === false) within(cell, ['intake', 'arrivals', i, 'at'], at);
    });
  }
  (holds ?? []).forEach((hold, i) => within(cell, ['holds', i, 'until'], hold.until));
}

function stepClocks(cell: Cell, id: string, step: Step): void {
  const after = (clock: string): number => minutesAfter(cell.shift.start, clock);
  for (const { rule, value } of rulesOf(step)) {
    const place: Place = ['steps', id, rule.name];
    const inside = rule.clocks.map(({ below, get }) => within(cell, [...place, ...below], get(value)));
    const wrong = inside.includes(false) ? null : rule.wrong(value, after);
    if (wrong !== null) fault(cell, place, ...wrong);
  }
}

/** Minutes in which something can happen: the shift, and its overtime where there is any. */
function span(cell: Cell): number {
  const { length, overtime } = cell.shift;
  return Math.min(1440, length + (overtime.until === 'none' ? 0 : overtime.cap));
}

const isWithin = (cell: Cell, clock: string): boolean => minutesAfter(cell.shift.start, clock) < span(cell);

/** Notes a clock time that lies outside; gives whether it is inside. */
function within(cell: Cell, place: Place, clock: string): boolean {
  if (isWithin(cell, clock)) return true;
  const end = clockOfMinutes(minutesAfter('00:00', cell.shift.start) + span(cell));
  const overtime = cell.shift.overtime.until === 'none' ? '' : ' with its overtime';
  fault(
    cell,
    place,
    `"${clock}", outside the shift`,
    `"${cell.shift.start}" or later and before "${end}", the shift${overtime}`,
    'correct the time, or the start and end of the shift',
  );
  return false;
}

function shiftClocks(cell: Cell): void {
  const { shift } = cell.scenario;
  const { length, tidyUp, overtime, target } = cell.shift;
  disjoint(cell, ['shift', 'breaks'], shift?.breaks ?? [], 'break');
  if (tidyUp >= length)
    fault(
      cell,
      ['shift', 'tidyUp'],
      inMinutes(tidyUp),
      `less than the shift's ${inMinutes(length)}`,
      'write the minutes before the end',
    );
  if (overtime.until === 'target' && target === null) {
    fault(
      cell,
      ['shift', 'overtime', 'until'],
      '"target" without a target',
      'a target to work towards',
      'add "target" to the shift, or write "empty"',
    );
  }
}

function personClocks(cell: Cell, id: string): void {
  const person = cell.scenario.people[id]!;
  const { from, to } = cell.shift.people.find((one) => one.id === id)!;
  const at: Place = ['people', id];
  const { length } = cell.shift;
  if (person.from !== undefined) within(cell, [...at, 'from'], person.from);
  if (person.to !== undefined && to > length) {
    const end = clockOfMinutes(minutesAfter('00:00', cell.shift.start) + length);
    fault(
      cell,
      [...at, 'to'],
      `"${person.to}", outside the shift`,
      `after "${cell.shift.start}" and at the latest "${end}"`,
      'correct the time; staying on is overtime, which the shift allows or not',
    );
  } else if (to <= from) {
    fault(
      cell,
      [...at, 'to'],
      `"${person.to ?? 'the end of the shift'}", not after the start at "${person.from ?? cell.shift.start}"`,
      'an end after the start',
      'put the two in order',
    );
  }
  disjoint(cell, [...at, 'breaks'], person.breaks ?? [], 'break');
  const away = (person.away ?? []).map((one) => ({
    from: one.from,
    minutes: minutesAfter(one.from, one.to),
  }));
  away.forEach((one, i) => {
    const ends = minutesAfter(cell.shift.start, one.from) + one.minutes;
    if (one.minutes > 0 && ends <= 1440) return;
    fault(
      cell,
      [...at, 'away', i, 'to'],
      `"${person.away![i]!.to}", not after "${one.from}"`,
      'an end after the start',
      'put the two in order',
    );
  });
  disjoint(cell, [...at, 'away'], away, 'time away');
  const seen = new Set<string>();
  (person.changes ?? []).forEach((change, i) => {
    within(cell, [...at, 'changes', i, 'from'], change.from);
    if (seen.has(change.from))
      fault(
        cell,
        [...at, 'changes', i, 'from'],
        `a second change at "${change.from}"`,
        'one change at a time',
        'take one away',
      );
    seen.add(change.from);
  });
}

function disjoint(cell: Cell, place: Place, list: { from: string; minutes: number }[], what: string): void {
  const inside = list
    .map((one, i) => ({ ...one, i, starts: minutesAfter(cell.shift.start, one.from) }))
    .filter((one) => within(cell, [...place, one.i, 'from'], one.from));
  inside.sort((a, b) => a.starts - b.starts || a.i - b.i);
  inside.slice(1).forEach((one, k) => {
    const before = inside[k]!;
    if (one.starts >= before.starts + before.minutes) return;
    const end = clockOfMinutes(minutesAfter('00:00', cell.shift.start) + before.starts + before.minutes);
    fault(
      cell,
      [...place, one.i, 'from'],
      `a ${what} at "${one.from}" inside the one from "${before.from}" to "${end}"`,
      'one after the other',
      'move one of the two',
    );
  });
}
