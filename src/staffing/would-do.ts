/**
 * Where the target cannot be made: single things that would make it, tried on the same shifts as the plan.
 */
import { resolve } from '../scenario/resolve.ts';
import type { Runner } from '../record/job.ts';
import { asPromised, type Interval } from '../study/intervals/interval.ts';
import type { OneMoreOfEach } from '../study/one-more.ts';
import { runStudy } from '../study/study.ts';
import { summarize } from '../study/summary.ts';
import { settingsOf } from '../study/from-scenario.ts';
import { mayStayFor } from './choices.ts';
import { keyOf, withDraft, type Draft } from './draft.ts';
import type { Day } from './question.ts';
import { asFiled } from './starts.ts';

export interface WouldDo {
  /** One more of something, or more overtime than was allowed for. */
  kind: 'one more' | 'overtime';
  /** "one more clamp set", "60 min of overtime for everybody who may". */
  name: string;
  price: number | null;
  /** Chance of the target with it: with the plan's posts, or, for overtime, the best of what goes with it. */
  chance: Interval;
  /** Whether that is surely the chance asked for, may be, or surely is not. */
  enough: 'yes' | 'perhaps' | 'no';
}

const MORE_OVERTIME = [30, 60, 90, 120];

/** Most helpful first. */
export async function whatWouldDo(
  day: Day,
  draft: Draft,
  each: OneMoreOfEach,
  runner: Runner,
  count: number,
  signal?: AbortSignal,
): Promise<WouldDo[]> {
  const enough = (chance: Interval): WouldDo['enough'] => {
    const { low, high } = asPromised(chance);
    return low >= day.confidence ? 'yes' : high >= day.confidence ? 'perhaps' : 'no';
  };
  const more = each.rows.flatMap((row): WouldDo[] => {
    const target = each.study.cases.find((one) => one.id === row.id)?.target;
    return target == null
      ? []
      : [
          {
            kind: 'one more',
            name: row.name,
            price: row.price,
            chance: target.chance,
            enough: enough(target.chance),
          },
        ];
  });
  const longer = await longerHours(day, draft, runner, count, signal);
  const extra = longer.map(({ cap, chance }): WouldDo => ({
    kind: 'overtime',
    name: `${cap} min of overtime for everybody who may`,
    price: null,
    chance,
    enough: enough(chance),
  }));
  return [...more, ...extra].sort((a, b) => b.chance.estimate - a.chance.estimate);
}

async function longerHours(
  day: Day,
  draft: Draft,
  runner: Runner,
  count: number,
  signal?: AbortSignal,
): Promise<{ cap: number; chance: Interval }[]> {
  const who = day.present.filter((id) => day.shift.people.find((person) => person.id === id)!.overtime);
  const cases = MORE_OVERTIME.filter((cap) => cap > (day.overtime?.cap ?? 0)).flatMap((cap) => {
    const open: Day = { ...day, overtime: { cap, until: 'target', who } };
    const may = who.filter((id) => mayStayFor(open, id, cap));
    if (may.length === 0) return [];
    const overtime = { cap, who: may };
    return replanned(day, draft).map((one, at) => ({
      id: `overtime-${cap}-${at}`,
      cap,
      name: `${cap} min`,
      shifts: [resolve(withDraft(open, { ...one, overtime }))],
    }));
  });
  if (cases.length === 0) return [];
  const study = summarize(
    await runStudy(
      { cases, pairs: [], settings: settingsOf(day.scenario), count },
      runner,
      undefined,
      signal,
    ),
  );
  signal?.throwIfAborted();
  const best = new Map<number, Interval>();
  cases.forEach(({ cap }, at) => {
    const { chance } = study.cases[at]!.target!;
    if (chance.estimate > (best.get(cap)?.estimate ?? -1)) best.set(cap, chance);
  });
  return [...best].map(([cap, chance]) => ({ cap, chance }));
}

/**
 * Posts to go with a remedy: the plan's; the plan's without its last starts, which keep people from what the
 * longer day would be for; the file's own.
 */
function replanned(day: Day, draft: Draft): Draft[] {
  const drafts = [draft, { ...draft, lastStart: {} }, asFiled(day)];
  return [...new Map(drafts.map((one) => [keyOf({ ...one, overtime: null }), one])).values()];
}
