/**
 * Where the units of a shift went: arrived = good + returned + scrap + inside + outside + diverted; and how
 * many were late.
 */
import { listMeasure, readMeasure } from '../measure.ts';
import { copied } from './copied.ts';

export const arrived = readMeasure({
  name: 'arrived',
  unit: 'units',
  label: 'Arrived',
  description: 'Units that came to the cell, those that stood in it at the start included.',
  day: { kind: 'sum' },
  read: ({ counts }) => counts.arrived,
});

export const diverted = readMeasure({
  name: 'diverted',
  unit: 'units',
  label: 'Turned away',
  description: 'Units that found the first rack full and were lost to the cell.',
  day: { kind: 'sum' },
  read: ({ counts }) => counts.diverted,
});

export const outside = readMeasure({
  name: 'outside',
  unit: 'units',
  label: 'Left outside',
  description: 'Units still waiting outside for room in the first rack at the end.',
  day: { kind: 'last' },
  read: ({ counts }) => counts.outside,
});

export const inside = readMeasure({
  name: 'inside',
  unit: 'units',
  label: 'Left in the cell',
  description: 'Units in the cell at the end, neither good nor scrapped.',
  day: { kind: 'last' },
  read: ({ counts }) => counts.inside,
});

export const good = readMeasure({
  name: 'good',
  unit: 'units',
  label: 'Good units',
  description: 'Units on the out-rack, those finished after the end of the shift included.',
  day: { kind: 'sum' },
  read: ({ counts }) => counts.good,
});

export const scrap = readMeasure({
  name: 'scrap',
  unit: 'units',
  label: 'Scrapped',
  description: 'Units scrapped at a step.',
  day: { kind: 'sum' },
  read: ({ counts }) => counts.scrap,
});

export const returned = readMeasure({
  name: 'returned',
  unit: 'units',
  label: 'Returned pieces out again',
  description:
    'Pieces that came back from a later department and are out again: counted before, not good units.',
  day: { kind: 'sum' },
  read: ({ counts }) => counts.again,
});

export const dated = readMeasure({
  name: 'dated',
  unit: 'units',
  label: 'Good units with a due time',
  description: 'Good units whose file gives them a due time.',
  day: { kind: 'sum' },
  read: ({ counts }) => counts.dated,
});

export const late = readMeasure({
  name: 'late',
  unit: 'units',
  label: 'Out late',
  description:
    'Good units that were out after their due time; those still in the cell past it are not among them.',
  day: { kind: 'sum' },
  read: ({ counts }) => counts.late,
});

export const reworked = readMeasure({
  name: 'reworked',
  unit: 'units',
  label: 'Sent back',
  description: 'How often a unit was sent back to an earlier step.',
  day: { kind: 'sum' },
  read: ({ counts }) => counts.reworked,
});

export const firstPassYield = readMeasure({
  name: 'firstPassYield',
  unit: 'share',
  label: 'Right the first time',
  description: 'Good units that were never sent back, of all units finished, scrapped ones included.',
  day: { kind: 'mean', by: [good, scrap] },
  read: ({ counts }) =>
    counts.good + counts.scrap > 0 ? counts.firstPass / (counts.good + counts.scrap) : NaN,
});

export const goodByHour = listMeasure({
  name: 'goodByHour',
  unit: 'units',
  label: 'Good units by the hour',
  description: 'Good units of each hour from the start; the last one takes all that is later.',
  per: ['hours'],
  write: copied(({ goodByHour: from }) => from),
});

export const rework = listMeasure({
  name: 'rework',
  unit: 'units',
  label: 'Sent back by cause',
  description: 'How often a unit was sent back, by step and cause, in the order of the file.',
  per: ['causes'],
  write: copied(({ byCause }) => byCause),
});
