/** Overtime and labor cost. */
import { listMeasure, readMeasure } from '../measure.ts';
import { copied } from './copied.ts';
import { good } from './units.ts';

export const overtime = readMeasure({
  name: 'overtime',
  unit: 'minutes',
  label: 'Overtime',
  description: 'Minutes after their own end that people were still there, all people together.',
  day: { kind: 'sum' },
  read: ({ wages }) => wages.overtime,
});

export const anyOvertime = readMeasure({
  name: 'anyOvertime',
  unit: 'share',
  label: 'Shifts with overtime',
  description: 'Whether there was a minute of overtime or more; on average the share of such shifts.',
  day: { kind: 'sum' },
  read: ({ wages }) => Number(wages.overtime >= 1),
});

export const cost = readMeasure({
  name: 'cost',
  unit: 'money',
  label: 'Labor cost',
  description: 'Pay of all people by the pay rules of the file, premiums included.',
  day: { kind: 'sum' },
  read: ({ wages }) => wages.cost,
});

export const costPerGood = readMeasure({
  name: 'costPerGood',
  unit: 'money a unit',
  label: 'Labor cost of a good unit',
  description: 'Labor cost over good units; unknown where nothing was good.',
  day: { kind: 'ratio', of: cost, over: good },
  read: ({ wages, counts }) => (counts.good > 0 ? wages.cost / counts.good : NaN),
});

export const personCost = listMeasure({
  name: 'personCost',
  unit: 'money',
  label: 'Pay of each',
  description: 'Pay of each person by the pay rules of the file.',
  per: ['people'],
  write: copied(({ wages }) => wages.byPerson),
});
