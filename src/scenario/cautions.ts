/**
 * What the tool owes its users wherever such numbers are entered or answers stand: it plans; it clears nobody
 * and nothing. One line each, only where they apply. Sources were read in excerpts; read the current text
 * before taking a figure as a limit.
 */
import type { Caution as Entry, Field, Said, ShortPaper } from './cautions/caution.ts';
import { CAUTIONS } from './cautions/list.ts';
import { resolve } from './resolve.ts';
import type { Scenario } from './schema.ts';

export type CautionTopic = (typeof CAUTIONS)[number]['topic'];

export interface Caution extends Said {
  topic: CautionTopic;
}

/**
 * The cautions that apply to a checked scenario (for an option: the scenario with the option applied), in the
 * order of the list.
 */
export const cautionsFor = (scenario: Scenario): Caution[] => chosen(scenario, () => true);

/** Those of them that belong beside a field of the cell's editor. */
export const cautionsBeside = (scenario: Scenario, field: Field): Caution[] =>
  chosen(scenario, ({ beside }) => beside.includes(field));

/** Those of them that a paper with little room cannot do without. */
export const cautionsOnShort = (scenario: Scenario, paper: ShortPaper): Caution[] =>
  chosen(scenario, ({ onShortPapers }) => onShortPapers.includes(paper));

/** All of them in one sentence of a few words each; what they say in full is said elsewhere. */
export function inShort(cautions: readonly Pick<Caution, 'topic'>[]): string {
  const short = new Map<string, string>(CAUTIONS.map((one: Entry) => [one.topic, one.short]));
  const words = cautions.map(({ topic }) => short.get(topic)!).join('; ');
  return words === '' ? '' : `${words[0]!.toUpperCase()}${words.slice(1)}.`;
}

function chosen(scenario: Scenario, isAsked: (one: Entry) => boolean): Caution[] {
  const shift = resolve(scenario);
  return CAUTIONS.filter((one: Entry) => isAsked(one) && one.applies(shift, scenario)).map(
    ({ topic, text, source }) => ({ topic, text, ...(source === null ? {} : { source }) }),
  );
}
