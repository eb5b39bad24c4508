/** A choice found elsewhere (a row of Limits, the plan of a crew, a field of the grid), put beside. */
import { diffPatch } from '../../../src/scenario/options.ts';
import { sameJson } from '../../../src/scenario/merge-patch.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import { addressOf } from '../../shell/route.ts';
import type { CellStore } from '../../store/cell-store.ts';
import type { Json } from '../../store/draft.ts';
import { plantOf } from '../common/resolved.ts';
import { freeId, type Option } from './options.ts';
import { keepShown, shownOf, withShown } from './shown.ts';

/** What makes the cell into another one, as an option has it. */
export function changesTo(scenario: Scenario, changed: Scenario): Record<string, unknown> {
  const { options: _options, ...base } = scenario;
  const { options: _others, ...other } = changed;
  return diffPatch(base, other) as Record<string, unknown>;
}

/** Puts it beside the others and turns to it; an option that changes just this is shown instead. */
export function putBeside(store: CellStore, scenario: Scenario, option: Option & { name: string }): void {
  const options = { ...scenario.options };
  const same = Object.keys(options).find((id) => sameJson(options[id]!.changes, option.changes));
  const id = same ?? freeId(options, option.name);
  const shown = shownOf(store.id, plantOf(scenario).options);
  if (same === undefined)
    store.change(`“${option.name}” added`, ['options'], { ...options, [id]: option } as unknown as Json);
  keepShown(store.id, withShown(shown, id));
  location.hash = addressOf('compare', id);
}
