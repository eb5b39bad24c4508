import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { checkScenario } from '../../src/scenario/check.ts';
import { mergePatch } from '../../src/scenario/merge-patch.ts';
import type { Scenario } from '../../src/scenario/schema.ts';
import { withDraft, type Draft, draftOf } from '../../src/staffing/draft.ts';
import { everyDraft } from '../../src/staffing/every-draft.ts';
import { movesFrom, simpleMoves } from '../../src/staffing/neighbours.ts';
import { openDay, type Attendance, type Day } from '../../src/staffing/question.ts';
import { brokenRules } from '../../src/staffing/rules.ts';
import { filled, startingDrafts } from '../../src/staffing/starts.ts';
import { generatedCells } from '../support/generated-cells.ts';
import { TWO_PEOPLE } from './small-cells.ts';
import { holds } from '../support/holds.ts';

const attendance: fc.Arbitrary<Attendance> = fc.oneof(
  { weight: 4, arbitrary: fc.constant<Attendance>({ kind: 'in' }) },
  fc.constant<Attendance>({ kind: 'out' }),
  fc.constant<Attendance>({ kind: 'late', minutes: 20, chance: 0.5 }),
  fc.constant<Attendance>({ kind: 'perhaps', chance: 0.7 }),
);

const asked = fc.record({
  cell: generatedCells,
  attendance: fc.array(attendance, { minLength: 4, maxLength: 4 }),
  cap: fc.constantFrom(0, 10, 45),
  changes: fc.constantFrom<0 | 1 | 2>(0, 1, 2),
  hours: fc.option(fc.constantFrom(2, 3), { nil: undefined }),
  walk: fc.array(fc.nat(), { minLength: 8, maxLength: 8 }),
});

/** The day, or null where the question itself cannot be asked. */
function dayOf({
  cell,
  attendance: given,
  cap,
  changes,
  hours,
}: typeof asked extends fc.Arbitrary<infer T> ? T : never): Day | null {
  const ids = Object.keys(cell.people);
  const limits = { ...cell.limits, ...(hours === undefined ? {} : { hoursPerDay: hours }) };
  try {
    return openDay({
      scenario: cell,
      attendance: Object.fromEntries(ids.map((id, at) => [id, given[at]!])),
      overtime: { cap },
      vary: { changes },
      limits,
    });
  } catch (error) {
    if (error instanceof RangeError) return null;
    throw error;
  }
}

/** Drafts along a walk of single changes. */
function drafts(day: Day, walk: number[]): Draft[] {
  const found = startingDrafts(day);
  let now = found[0]!;
  for (const step of walk) {
    const moves = step % 3 === 0 ? simpleMoves(day, now) : movesFrom(day, now);
    const made = moves.length === 0 ? null : moves[step % moves.length]!(now);
    if (made === null) continue;
    now = made;
    found.push(now);
  }
  return found;
}

describe('the hard rules', () => {
  test('are kept by every draft the planner makes, in generated cells, and every draft is a sound file', () => {
    let seen = 0;
    holds(
      fc.property(asked, (question) => {
        const day = dayOf(question);
        if (day === null) return;
        for (const draft of drafts(day, question.walk)) {
          const plan = withDraft(day, draft);
          expect(brokenRules(day, plan)).toEqual([]);
          const reading = checkScenario(plan);
          expect(reading.kind === 'wrong' ? reading.faults.map((fault) => fault.text) : []).toEqual([]);
          seen += 1;
        }
      }),
      { numRuns: 900, seed: 6 },
    );
    expect(seen).toBeGreaterThan(3000);
  });

  const BREAKS = {
    shift: {
      breaks: [
        { from: '06:00', minutes: 5 },
        { from: '07:00', minutes: 10 },
      ],
    },
  };
  const cell = mergePatch(TWO_PEOPLE, BREAKS) as Scenario;
  const day = openDay({ scenario: cell, overtime: { cap: 15, who: ['ada'] }, limits: { hoursPerDay: 2.7 } });
  const plan = withDraft(day, filled(day, draftOf(day)));
  const broken = (patch: object): unknown[] => brokenRules(day, mergePatch(plan, patch) as Scenario);

  test('each is told by name when a change by hand breaks it', () => {
    expect(broken({})).toEqual([]);
    expect(broken({ people: { bo: { skills: { glue: 3 }, covers: ['unclamp', 'sand', 'glue'] } } })).toEqual([
      { kind: 'no skill', person: 'bo', step: 'glue' },
    ]);
    expect(broken({ people: { ada: { covers: [] } } })).toEqual([
      { kind: 'no post', person: 'ada' },
      { kind: 'nobody there', step: 'glue', from: 0 },
    ]);
    expect(broken({ people: { bo: { changes: [{ from: '08:00', covers: ['unclamp'] }] } } })).toEqual([
      { kind: 'nobody there', step: 'sand', from: 120 },
    ]);
    expect(broken({ people: { ada: { to: '08:00' } } })).toEqual([{ kind: 'hours changed', person: 'ada' }]);
    expect(broken({ people: { ada: { breaks: [{ from: '06:00', minutes: 5 }] } } })).toEqual([
      { kind: 'break changed', person: 'ada' },
    ]);
    expect(
      broken({
        people: {
          ada: {
            breaks: [
              { from: '06:00', minutes: 5 },
              { from: '06:50', minutes: 10 },
            ],
          },
        },
      }),
    ).toEqual([{ kind: 'break changed', person: 'ada' }]);
    expect(broken({ shift: { overtime: { until: 'target', cap: 10, who: ['bo'] } } })).toEqual([
      { kind: 'overtime not allowed', person: 'bo' },
    ]);
    expect(broken({ shift: { overtime: { until: 'target', cap: 20, who: ['ada'] } } })).toEqual([
      { kind: 'overtime too long', minutes: 20, most: 15 },
      { kind: 'hours a day', person: 'ada', hours: expect.closeTo(17 / 6, 6) as number, most: 2.7 },
    ]);
  });

  test('a last start may come earlier than the file says, and not later', () => {
    const early = openDay({
      scenario: mergePatch(cell, { steps: { glue: { lastStart: '08:00' } } }) as Scenario,
    });
    const sheet = withDraft(early, draftOf(early));
    const with_ = (lastStart: string | null): unknown[] =>
      brokenRules(early, mergePatch(sheet, { steps: { glue: { lastStart } } }) as Scenario);
    expect(with_('07:45')).toEqual([]);
    expect(with_('08:10')).toEqual([{ kind: 'last start', step: 'glue' }]);
    expect(with_(null)).toEqual([{ kind: 'last start', step: 'glue' }]);
  });

  test('somebody in training is posted only where the file does so, or where nobody else can', () => {
    const learning = mergePatch(TWO_PEOPLE, { people: { bo: { skills: { glue: 1 } } } }) as Scenario;
    expect(openDay({ scenario: learning }).usable['bo']).toEqual(['unclamp', 'sand']);
    const alone = openDay({ scenario: learning, attendance: { ada: { kind: 'out' } } });
    expect(alone.usable['bo']).toEqual(['glue', 'unclamp', 'sand']);
    expect(alone.uncovered).toEqual([]);
    expect(openDay({ scenario: TWO_PEOPLE, attendance: { ada: { kind: 'out' } } }).uncovered).toEqual([
      'glue',
    ]);
  });

  test('a question that cannot be asked is refused in a sentence', () => {
    expect(() => openDay({ scenario: TWO_PEOPLE, attendance: { eve: { kind: 'out' } } })).toThrow(
      'There is nobody called "eve" in this file; it has ada, bo.',
    );
    expect(() =>
      openDay({ scenario: TWO_PEOPLE, attendance: { ada: { kind: 'out' }, bo: { kind: 'out' } } }),
    ).toThrow('Everybody is out');
    expect(() => openDay({ scenario: TWO_PEOPLE, confidence: 1 })).toThrow('over 0 and under 1');
    expect(() => openDay({ scenario: TWO_PEOPLE, target: 2.5 })).toThrow('whole number');
    expect(() => openDay({ scenario: TWO_PEOPLE, limits: { hoursPerDay: 2 } })).toThrow(
      'over the 2 hours a day',
    );
  });
});

test('a cell whose piece fits into overtime only is said to need it, before a crew is looked for', () => {
  const long: Scenario = {
    format: 1,
    name: 'A long glue-up',
    steps: { glue: { time: 500, whole: true } },
    people: { ada: { covers: ['glue'] } },
    shift: { start: '06:00', end: '14:00', overtime: { until: 'empty', cap: 60 } },
  };
  expect(checkScenario(long).kind).not.toBe('wrong');
  expect(() => openDay({ scenario: long, overtime: null })).toThrow(
    /^Without overtime this cell cannot run: /,
  );
  expect(() => openDay({ scenario: long, overtime: { cap: 10 } })).toThrow(
    /^With at most 10 min of overtime this cell cannot run: /,
  );
  // What is left in overtime only is planned with it, whatever else is tried.
  const day = openDay({ scenario: long, overtime: { cap: 60 } });
  const found = drafts(day, [7, 11, 13, 29]);
  expect(found.every((draft) => checkScenario(withDraft(day, draft)).kind !== 'wrong')).toBe(true);
  expect(everyDraft(day, 100)!.every(({ overtime }) => (overtime?.cap ?? 0) >= 20)).toBe(true);
  expect(openDay({ scenario: long, overtime: { cap: 60 } }).overtime).toMatchObject({ cap: 60 });
});
