/** The out-rack, and pieces that changed places. */
import { readMeasure } from '../measure.ts';
import { MINUTE } from './copied.ts';

export const racksSent = readMeasure({
  name: 'racksSent',
  unit: 'racks',
  label: 'Racks sent',
  description: 'Full out-racks rolled away.',
  day: { kind: 'sum' },
  read: ({ counts }) => counts.racks,
});

export const rackFill = readMeasure({
  name: 'rackFill',
  unit: 'minutes',
  label: 'A rack fills in',
  description: 'From the first unit on an out-rack to its leaving, the mean over racks; nights do not count.',
  day: { kind: 'mean', by: [racksSent] },
  read: ({ counts }) => (counts.racks > 0 ? counts.rackFill / counts.racks / MINUTE : NaN),
});

export const rackWait = readMeasure({
  name: 'rackWait',
  unit: 'minutes',
  label: 'Waits on the rack',
  description:
    'How long a good unit waits on the out-rack for it to leave, the mean over units of racks sent.',
  day: { kind: 'mean', by: [racksSent] },
  read: ({ counts, shift }) =>
    counts.racks > 0 ? counts.rackWait / (counts.racks * (shift.outRack?.size ?? 1)) / MINUTE : NaN,
});

export const placesChanged = readMeasure({
  name: 'placesChanged',
  unit: 'units',
  label: 'Places changed',
  description: 'Units that waited for each other in a circle and changed places.',
  day: { kind: 'sum' },
  read: ({ counts }) => counts.places,
});
