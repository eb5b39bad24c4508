/** Units waiting: outside, and in the line before each step. */
import { workingAt } from '../../engine/recorder.ts';
import { listMeasure, readMeasure } from '../measure.ts';
import { copied, MINUTE, writeOver } from './copied.ts';
import { length } from './time.ts';

export const outsideMean = readMeasure({
  name: 'outsideMean',
  unit: 'units',
  label: 'Outside, on average',
  description: 'Units waiting outside for room in the first rack, averaged over the length of the report.',
  day: { kind: 'mean', by: [length] },
  read: ({ counts }) => counts.outsideArea / counts.closed,
});

export const outsideMost = readMeasure({
  name: 'outsideMost',
  unit: 'units',
  label: 'Outside, at most',
  description: 'Most units waiting outside at once.',
  day: { kind: 'most' },
  read: ({ counts }) => counts.outsideMost,
});

export const lineMean = listMeasure({
  name: 'lineMean',
  unit: 'units',
  label: 'In line, on average',
  description: 'Units in the line before each step, averaged over the length of the report.',
  per: ['steps'],
  write: copied(
    ({ lineArea }) => lineArea,
    ({ counts }) => 1 / counts.closed,
  ),
});

export const lineMost = listMeasure({
  name: 'lineMost',
  unit: 'units',
  label: 'In line, at most',
  description: 'Most units in the line before each step at once.',
  per: ['steps'],
  write: copied(({ lineMost: from }) => from),
});

export const lineAt = listMeasure({
  name: 'lineAt',
  unit: 'units',
  label: 'In line through the day',
  description: 'Units in the line before each step, averaged over each quarter hour of the scheduled shift.',
  per: ['steps', 'bins'],
  // The last quarter hour may be short.
  write: ({ lineBins, layout, shift }, row, at) => {
    const { bins } = layout;
    const width = layout.binMinutes * MINUTE;
    const whole = bins - 1;
    const last = shift.length * MINUTE - whole * width;
    for (let first = 0; first < lineBins.length; first += bins) {
      writeOver(lineBins, first, whole, width, row, at + first);
      row[at + first + whole] = lineBins[first + whole]! / last;
    }
  },
});

export const waited = listMeasure({
  name: 'waited',
  unit: 'minutes',
  label: 'Waited in line',
  description: 'Minutes waited in the line before each step, all units that started it together.',
  per: ['steps'],
  write: copied(
    ({ waited: from }) => from,
    () => 1 / MINUTE,
  ),
});

export const starts = listMeasure({
  name: 'starts',
  unit: 'units',
  label: 'Starts',
  description: 'How often each step was started.',
  per: ['steps'],
  write: copied(({ starts: from }) => from),
});

export const worked = listMeasure({
  name: 'worked',
  unit: 'minutes',
  label: 'Worked',
  description: 'Minutes worked at each step, all people together.',
  per: ['steps'],
  write: ({ personTime, layout }, row, at) => {
    const { personStates, people, steps, gear } = layout;
    for (let step = 0; step < steps.length; step++) {
      let minutes = 0;
      for (let person = 0; person < people.length; person++) {
        const own = 2 * person * personStates + workingAt(gear.length, step);
        minutes = minutes + personTime[own]! / MINUTE + personTime[own + personStates]! / MINUTE;
      }
      row[at + step] = minutes;
    }
  },
});
