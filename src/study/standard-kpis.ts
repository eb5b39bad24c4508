/**
 * Figures under the names of ISO 22400-2 (key performance indicators for manufacturing operations
 * management), where the standard's definition is meant. Worker efficiency, quality ratio and rework ratio as
 * an ontology of the standard gives their formulas (Helmut Schmidt University,
 * IndustrialStandard-ODP-ISO22400-2); the other formulas from memory.
 */
import { personPresence, workingAt } from '../engine/states.ts';
import type { CaseSummary } from './summary.ts';

export interface StandardKpi {
  /** As the standard calls it. */
  name: string;
  formula: string;
  /** What stands for the formula's elements here. */
  meaning: string;
  unit: 'share' | 'units an hour';
  /** Of means over all shifts; null where nothing was finished, or nobody came. */
  value: number | null;
}

type Told = Omit<StandardKpi, 'value'>;

const PRODUCED = 'PQ, the produced quantity: units finished, good or scrapped';

export const STANDARD_KPIS = {
  quality: {
    name: 'Quality ratio',
    formula: 'GQ / PQ',
    meaning: `GQ, the good quantity: good units. ${PRODUCED}.`,
    unit: 'share',
  },
  scrap: {
    name: 'Scrap ratio',
    formula: 'SQ / PQ',
    meaning: `SQ, the scrap quantity: units scrapped. ${PRODUCED}.`,
    unit: 'share',
  },
  rework: {
    name: 'Rework ratio',
    formula: 'RQ / PQ',
    meaning: `RQ, the rework quantity: how often a unit was sent back, so a unit sent back twice counts twice. ${PRODUCED}.`,
    unit: 'share',
  },
  firstPass: {
    name: 'First pass yield',
    formula: 'GP / IP',
    meaning:
      'GP, good parts: good units that were never sent back. IP, inspected parts: units finished, good or scrapped. The mean over shifts.',
    unit: 'share',
  },
  worker: {
    name: 'Worker efficiency',
    formula: 'APWT / APAT',
    meaning:
      'APWT, the actual personnel work time: minutes at a step. APAT, the actual personnel attendance time: minutes there, breaks and other lines out, overtime in. Of the whole crew together; never of one person.',
    unit: 'share',
  },
  throughput: {
    name: 'Throughput rate',
    formula: 'PQ / AOET',
    meaning: `${PRODUCED}. AOET, the actual order execution time: the shift's work taken as one order, from its start to the last piece finished and the last person gone, in hours.`,
    unit: 'units an hour',
  },
} as const satisfies Record<string, Told>;

/** Of a case told in full: its shifts are needed. */
export function standardKpis({ measures, shifts }: Pick<CaseSummary, 'measures' | 'shifts'>): StandardKpi[] {
  const mean = (name: keyof CaseSummary['measures']): number => measures[name].estimate;
  const produced = mean('good') + mean('scrap');
  const { worked, there } = crewMinutes(shifts);
  const hours = mean('length') / 60;
  const values: Record<keyof typeof STANDARD_KPIS, number> = {
    quality: mean('good') / produced,
    scrap: mean('scrap') / produced,
    rework: mean('reworked') / produced,
    firstPass: mean('firstPassYield'),
    worker: worked / there,
    throughput: produced / hours,
  };
  return (Object.keys(STANDARD_KPIS) as (keyof typeof STANDARD_KPIS)[]).map((key) => ({
    ...STANDARD_KPIS[key],
    value: Number.isFinite(values[key]) ? values[key] : null,
  }));
}

/** At a step, and there at all; tidying up is attendance and no work on an order. */
function crewMinutes(shifts: CaseSummary['shifts']): { worked: number; there: number } {
  let [worked, there] = [0, 0];
  for (const { people, gear } of shifts) {
    const first = workingAt(gear.length, 0);
    for (const { minutes, overtime } of people)
      minutes.forEach((inHours, state) => {
        const all = inHours + overtime[state]!;
        if (personPresence(state) === 'here') there += all;
        if (state >= first) worked += all;
      });
  }
  return { worked, there };
}
