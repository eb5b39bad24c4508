/** Rows of the plan, each one press from Compare: there each stands against the cell as it is in the file. */
import { CHANGES_SHOWN } from '../../../src/report/crew-words.ts';
import { nameOf } from '../../../src/scenario/resolve.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import type { CrossTraining } from '../../../src/staffing/cross-training.ts';
import type { CrewPlan } from '../../../src/staffing/plan-crew.ts';
import { extrasOf } from '../../../src/study/one-more.ts';
import type { CellStore } from '../../store/cell-store.ts';
import { extraRow, typedRow, type BesideRow } from '../compare/beside-list.ts';
import { putBeside } from '../compare/put-beside.ts';
import { shiftOf } from '../common/resolved.ts';

/** The whole plan, and each person who stands elsewhere than in the file, alone. */
export function planRows(store: CellStore, filed: Scenario, plan: CrewPlan): BesideRow[] {
  if (plan.kind === 'over the limit') return [];
  const { people } = shiftOf(filed);
  const planned = plan.planChanges['people'] as Record<string, object> | undefined;
  const moved = Object.entries(planned ?? {}).filter(([id]) => people.some((one) => one.id === id));
  return [
    {
      name: 'the crew as planned',
      put: () => putBeside(store, filed, { name: 'The crew as planned', changes: plan.changes }),
    },
    ...moved.map(([id, changes]): BesideRow => {
      const name = `${nameOf(people, id)} as planned`;
      return { name, put: () => putBeside(store, filed, { name, changes: { people: { [id]: changes } } }) };
    }),
  ];
}

/** Each who might call out. */
export const absenceRows = (store: CellStore, filed: Scenario, { absences }: CrewPlan): BesideRow[] =>
  (absences ?? [])
    .filter(({ id }) => shiftOf(filed).people.some((one) => one.id === id))
    .map(({ id, name }) => typedRow(store, filed, { word: 'out', given: id }, `${name} out`));

/** What would have to change, as far as it stands in one file as well as in the plan. */
export function changeRows(store: CellStore, filed: Scenario, { wouldDo }: CrewPlan): BesideRow[] {
  const extras = wouldDo === null ? [] : extrasOf(filed);
  return (wouldDo ?? []).slice(0, CHANGES_SHOWN).flatMap(({ kind, name }): BesideRow[] => {
    if (kind === 'overtime')
      return [typedRow(store, filed, { word: 'overtime', given: String(parseInt(name, 10)) }, name)];
    const extra = extras.find((one) => one.name === name);
    return extra === undefined ? [] : [extraRow(store, filed, extra)];
  });
}

/** Each second skill, at the level it was tried at. */
export const skillRows = (store: CellStore, filed: Scenario, { rows, level }: CrossTraining): BesideRow[] =>
  rows.map(({ person, personName, step, stepName }) =>
    typedRow(
      store,
      filed,
      { word: 'also', given: `${person}=${step}/${level}` },
      `${personName} also at ${stepName}`,
    ),
  );
