/**
 * What an option is called in a sentence, and when it pays: the same words on the page, in the brief and on
 * the command line.
 */
import { applyChanges, diffPatch } from '../scenario/options.ts';
import { resolve, resolveMoney, resolveOption } from '../scenario/resolve.ts';
import type { Scenario } from '../scenario/schema.ts';
import type { PairSummary } from '../study/summary.ts';
import { paybackOf, type Ranged } from '../money/payback.ts';
import type { Subject } from './sentences.ts';
import { paybackSentence } from './verdicts.ts';
import { inSentence, listed, ordinal, plural, singular, withArticle } from './words.ts';

type Option = NonNullable<Scenario['options']>[string];

/**
 * The option of exactly so many more of one gear: "a third clamp set", which adds and loses like a thing;
 * null for any other.
 */
export function moreOfOne(
  scenario: Scenario,
  option: Pick<Option, 'changes'>,
): { words: string; several: boolean } | null {
  const { options: _options, ...base } = scenario;
  const changes = diffPatch(base, applyChanges(scenario, option.changes)) as {
    gear?: Record<string, { count?: number }>;
  };
  const ids = Object.keys(changes.gear ?? {});
  if (Object.keys(changes).length !== 1 || ids.length !== 1) return null;
  const [id] = ids as [string];
  const gear = resolve(scenario).gear.find((one) => one.kind === 'gear' && one.id === id);
  const [was, now] = [gear?.count ?? 0, changes.gear![id]!];
  if (Object.keys(now).join() !== 'count' || now.count === undefined || now.count <= was) return null;
  const name = inSentence(gear?.name ?? id);
  const places = Array.from({ length: now.count - was }, (_, i) => withArticle(ordinal(was + 1 + i)));
  if (places.length === 1) return { words: `${places[0]} ${singular(name)}`, several: false };
  return places.length > 3
    ? { words: `${places.length} more ${plural(name)}`, several: true }
    : { words: `${listed(places)} ${singular(name)}`, several: true };
}

/** "a third clamp set" where the option is called just that, else "with “Breaks one after the other”". */
export function optionSubject(scenario: Scenario, id: string, option: Option): Subject {
  const more = moreOfOne(scenario, option);
  const { name } = resolveOption(id, option);
  return more !== null && more.words.toLowerCase() === name.trim().toLowerCase()
    ? { kind: 'thing', ...more }
    : { kind: 'situation', words: `with “${name}”` };
}

/**
 * When a price is paid back by what the good units bring in, labour added off; empty where there is no price,
 * or nobody said what a unit brings in.
 *
 * @param pair differences a shift: good units, and labour cost in money.
 */
export function paybackWords(
  scenario: Pick<Scenario, 'money'>,
  price: number | null | undefined,
  pair: Pick<PairSummary, 'good' | 'cost'>,
): string {
  const { margin, shiftsPerYear, currency } = resolveMoney(scenario.money);
  if (price === undefined || price === null || price === 0 || margin === null) return '';
  const { good, cost } = pair;
  const gain: Ranged = {
    estimate: good.estimate * margin - cost.estimate,
    low: good.low * margin - cost.high,
    high: good.high * margin - cost.low,
  };
  return paybackSentence(paybackOf(price, gain), shiftsPerYear, gain, currency);
}
