/** Time through the cell, the target, and the hours the report covers. */
import { readMeasure } from '../measure.ts';
import { MINUTE } from './copied.ts';
import { good } from './units.ts';

export const leadMean = readMeasure({
  name: 'leadMean',
  unit: 'minutes',
  label: 'Arrival to good',
  description: 'From arrival to the out-rack, the mean over the good units; nights do not count.',
  day: { kind: 'mean', by: [good] },
  read: ({ counts }) => (counts.good > 0 ? counts.lead / counts.good / MINUTE : NaN),
});

/**
 * What stood there in the morning has part of its way behind it: with it, the mean says too little of how
 * long a piece takes that comes in today.
 */
export const newGood = readMeasure({
  name: 'newGood',
  unit: 'units',
  label: 'Good units of this shift’s pieces',
  description: 'Good units that came in during the shift, without what stood in the cell when it began.',
  day: { kind: 'sum' },
  read: ({ counts }) => counts.newGood,
});

export const newLead = readMeasure({
  name: 'newLead',
  unit: 'minutes',
  label: 'Arrival to good, this shift’s pieces',
  description:
    'From arrival to the out-rack, the mean over the good units that came in during the same shift.',
  day: { kind: 'mean', by: [newGood] },
  read: ({ counts }) => (counts.newGood > 0 ? counts.newLead / counts.newGood / MINUTE : NaN),
});

export const flowMean = readMeasure({
  name: 'flowMean',
  unit: 'minutes',
  label: 'First start to good',
  description: 'From the first start of a step to the out-rack, the mean over the good units.',
  day: { kind: 'mean', by: [good] },
  read: ({ counts }) => (counts.good > 0 ? counts.flow / counts.good / MINUTE : NaN),
});

export const targetMet = readMeasure({
  name: 'targetMet',
  unit: 'yes',
  label: 'Makes the target',
  description: 'Whether the target was met (of several shifts: in every one); unknown without a target.',
  day: { kind: 'all' },
  read: ({ counts, shift }) => (shift.target === null ? NaN : Number(counts.good >= shift.target)),
});

export const targetAt = readMeasure({
  name: 'targetAt',
  unit: 'minutes',
  label: 'Target met after',
  description: 'Minutes from the start to the unit that met the target; unknown where it was not met.',
  day: { kind: 'last' },
  read: ({ counts }) => counts.targetAt / MINUTE,
});

export const length = readMeasure({
  name: 'length',
  unit: 'minutes',
  label: 'Length of the report',
  description:
    'From the start to the latest of the end, the last piece finished and the last person leaving.',
  day: { kind: 'sum' },
  read: ({ counts }) => counts.closed / MINUTE,
});

export const breakLapsed = readMeasure({
  name: 'breakLapsed',
  unit: 'minutes',
  label: 'Breaks lost',
  description: 'Break time that was still owed to people when they went home.',
  day: { kind: 'sum' },
  read: ({ counts }) => counts.lapsed / MINUTE,
});
