import type { TheoryCase } from '../case.ts';
import { clampSetCases } from './clamp-sets.ts';
import { lineCases } from './lines.ts';
import { rackCases } from './racks.ts';
import { reworkCases } from './rework.ts';
import { scheduleCases } from './schedules.ts';

export const THEORY: { title: string; cases: TheoryCase[] }[] = [
  { title: 'Clamp sets, cure and hands', cases: clampSetCases },
  { title: 'Racks', cases: rackCases },
  { title: 'Lines', cases: lineCases },
  { title: 'Rework and a constant number inside', cases: reworkCases },
  { title: 'Fixed-time schedules', cases: scheduleCases },
];
