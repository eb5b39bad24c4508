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
import { withDraft, type Draft } from './draft.ts';
import type { Day } from './question.ts';

export interface WouldDo {
  /** One more of something, or more overtime than was allowed for. */
  kind: 'one more' | 'overtime';
  /** "one more clamp set", "60 min of overtime for everybody who may". */
  name: string;
  price: number | null;
  /** Chance of the target with it and the plan's posts. */
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
  const caps = MORE_OVERTIME.flatMap((cap) => {
    const open: Day = { ...day, overtime: { cap, until: 'target', who } };
    const may = who.filter((id) => mayStayFor(open, id, cap));
    return cap <= (day.overtime?.cap ?? 0) || may.length === 0
      ? []
      : [{ cap, scenario: withDraft(open, { ...draft, overtime: { cap, who: may } }) }];
  });
  if (caps.length === 0) return [];
  const cases = caps.map(({ cap, scenario }) => ({
    id: `overtime-${cap}`,
    name: `${cap} min`,
    shifts: [resolve(scenario)],
  }));
  const study = summarize(
    await runStudy(
      { cases, pairs: [], settings: settingsOf(day.scenario), count },
      runner,
      undefined,
      signal,
    ),
  );
  signal?.throwIfAborted();
  return caps.map(({ cap }, at) => ({ cap, chance: study.cases[at]!.target!.chance }));
}
