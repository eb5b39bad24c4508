import { describe, expect, test } from 'vitest';
import demo from '../../scenarios/chair-works.json';
import { readCsv, writeCsv } from '../../src/document/csv.ts';
import { answerSentences, leanSentences, searchSentences } from '../../src/report/crew-words.ts';
import { sheetRows } from '../../src/report/crew-sheet.ts';
import { wallPage } from '../../src/report/wall-sheet.ts';
import { toText } from '../../src/document/document-text.ts';
import { overtimeMoney, paidDay } from '../../src/staffing/accounts.ts';
import { crossTraining } from '../../src/staffing/cross-training.ts';
import { CREW, planCrew, type CrewPlan, type CrewSettings } from '../../src/staffing/plan-crew.ts';
import { type CrewQuestion, openDay } from '../../src/staffing/question.ts';
import { brokenRules } from '../../src/staffing/rules.ts';
import { SEARCH } from '../../src/staffing/search.ts';
import { pointsOf, workMinutes } from '../../src/staffing/trials.ts';
import { exposureOf } from '../../src/staffing/exposure.ts';
import { tryChange } from '../../src/staffing/try-change.ts';
import { compile } from '../../src/engine/compile.ts';
import { workingAt } from '../../src/engine/recorder.ts';
import { runJob, type Runner } from '../../src/record/job.ts';
import { layoutOf } from '../../src/record/layout.ts';
import { payFor, toCent } from '../../src/money/pay.ts';
import { checkScenario } from '../../src/scenario/check.ts';
import { mergePatch } from '../../src/scenario/merge-patch.ts';
import { resolve, resolveLimits } from '../../src/scenario/resolve.ts';
import type { Scenario } from '../../src/scenario/schema.ts';
import { inLineRunner } from '../../src/work/in-line.ts';
import { TWO_PEOPLE } from './small-cells.ts';

const chairs = demo as unknown as Scenario;
const QUICK: CrewSettings = {
  ...CREW,
  search: { ...SEARCH, shifts: 1200, quick: 6, look: 24, verify: 60, closer: 6, finalists: 8 },
  race: { ...CREW.race, most: 600 },
  report: 120,
  oneMore: 0,
  absence: 0,
};

/** Answers jobs in another order than they were asked in, as threads may. */
function shuffledRunner(): Runner {
  let turn = 0;
  return {
    width: 3,
    run: async (job) => {
      turn += 1;
      const result = runJob(job);
      for (let wait = (turn * 71) % 97; wait > 0; wait--) await Promise.resolve();
      return result;
    },
    close: () => Promise.resolve(),
  };
}

describe('a crew plan', () => {
  const question: CrewQuestion = {
    scenario: chairs,
    attendance: {
      wren: { kind: 'out' },
      kofi: { kind: 'late', minutes: 30 },
      ines: { kind: 'perhaps', chance: 0.9 },
    },
    overtime: { cap: 45, who: ['tova', 'ines', 'kofi'] },
  };
  let plan: CrewPlan;
  const planned = async (): Promise<CrewPlan> => (plan ??= await planCrew(question, inLineRunner(), QUICK));

  test('is plain data that says the same whoever runs the shifts', async () => {
    const [here, there] = [await planned(), await planCrew(question, shuffledRunner(), QUICK)];
    expect(JSON.parse(JSON.stringify(here))).toEqual(JSON.parse(JSON.stringify(there)));
    expect(structuredClone(here)).toEqual(here);
  });

  test('is a sound file that keeps the rules, and its changes make it from the file asked about', async () => {
    const { scenario, changes, planChanges, sheet } = await planned();
    const day = openDay(question);
    expect(checkScenario(scenario).kind).toBe('fine');
    expect(brokenRules(day, scenario)).toEqual([]);
    const { options: _options, ...base } = chairs;
    expect(resolve(mergePatch(base, changes) as Scenario)).toEqual(resolve(scenario));
    expect(resolve(mergePatch(day.scenario, planChanges) as Scenario)).toEqual(resolve(scenario));
    expect(sheet.people.map((person) => person.id)).toEqual(Object.keys(chairs.people));
    expect(sheet.people.find((person) => person.id === 'wren')).toMatchObject({
      chance: 0,
      posts: [],
      breaks: [],
      overtime: 0,
    });
    expect(sheet.people.find((person) => person.id === 'kofi')).toMatchObject({
      chance: 1,
      late: { minutes: 30, chance: 1 },
    });
    for (const person of sheet.people.filter((one) => one.id === 'orla' || one.id === 'bastian'))
      expect(person.overtime).toBe(0);
  });

  test('leans on what it leans on', async () => {
    const { leansOn, sheet } = await planned();
    expect(leansOn).toContainEqual({ kind: 'perhaps', person: 'Ines', chance: 0.9 });
    expect(leansOn).toContainEqual({ kind: 'late', person: 'Kofi', minutes: 30, chance: 1 });
    expect(leansOn).toContainEqual({ kind: 'skill', person: 'Kofi', step: 'check', level: 2 });
    expect(leansOn).toContainEqual({ kind: 'arrivals', units: 28, last: '13:00' });
    expect(leanSentences({ leansOn, sheet })).toContain(
      'Ines comes with a chance of 90%; the figures count both.',
    );
  });

  test("reckons each person's pay and overtime to the cent as the pay rules do", async () => {
    const { scenario, overtime } = await planned();
    const shift = resolve(scenario);
    const layout = layoutOf(compile(shift));
    const { rows } = runJob({ shifts: [shift], from: 0, count: 120 });
    const money = shift.people.map(() => 0);
    for (let row = 0; row < 120; row++) {
      shift.people.forEach((person, at) => {
        const worked = workMinutes(rows[0]!, row * layout.size, layout, at);
        const total = payFor(paidDay(worked, shift, at), person, shift.pay).total;
        expect(toCent(total)).toBe(toCent(rows[0]![row * layout.size + layout.at.personCost + at]!));
        // Rate, time and a half after the own end, under forty hours: 29 CFR 778.110 with the day's end for
        // the week's.
        expect(toCent(overtimeMoney(worked, shift, at))).toBe(toCent((worked.after * person.pay * 1.5) / 60));
        money[at]! += overtimeMoney(worked, shift, at) / 120;
      });
    }
    for (const one of overtime)
      expect(one.money.estimate).toBeCloseTo(
        money[shift.people.findIndex((person) => person.id === one.id)]!,
        9,
      );
    expect(overtime.reduce((sum, one) => sum + one.minutes.estimate, 0)).toBeGreaterThan(0);
  });

  test('prints on the wall and in a table in crew order, with every post', async () => {
    const { sheet } = await planned();
    const page = toText(
      wallPage({
        sheet,
        day: '2026-03-03',
        answer: answerSentences(plan),
        cautions: [{ topic: 'forecast', text: 'A forecast, not a promise.' }],
      }).page,
      100,
    );
    expect(page).toMatch(/^Crew sheet: Chair works, 2026-03-03\n/);
    expect(page).toContain('- Out: Wren.');
    expect(page).toContain('Kofi (30 min late)');
    expect(page).toContain('A forecast, not a promise.');
    expect(page.split('\n').every((line) => line.length <= 100)).toBe(true);
    const order = ['Orla', 'Bastian', 'Tova', 'Ines', 'Kofi'].map((name) => page.indexOf(`\n${name}`));
    expect([...order].sort((a, b) => a - b)).toEqual(order);
    const rows = readCsv(writeCsv(sheetRows(sheet)));
    expect(rows[0]).toEqual(['person', 'what', 'from', 'to', 'steps in order', 'note']);
    expect(rows).toContainEqual(['Wren', 'out', '', '', '', '']);
    const posts = sheet.people.flatMap((person) => person.posts);
    expect(rows.filter((row) => row[1] === 'post')).toHaveLength(posts.length);
    expect(rows.filter((row) => row[1] === 'break')).toHaveLength(
      sheet.people.flatMap((person) => person.breaks).length,
    );
  });

  test('says that the guarantee is about the plans raced and no others', async () => {
    const words = searchSentences(await planned(), '$').join(' ');
    expect(words).toContain('a search, which may miss a better plan');
    if (plan.search.capped) expect(words).toContain('without a guarantee');
    else expect(words).toContain('among the plans raced and no others');
  });

  test('a change by hand is tried against it on the same shifts', async () => {
    const { scenario } = await planned();
    const nothing = await tryChange(question, { scenario }, {}, inLineRunner(), { count: 40 });
    expect(nothing).toMatchObject({
      kind: 'tried',
      broken: [],
      good: { estimate: 0 },
      cost: { estimate: 0, low: 0, high: 0 },
    });
    const idle = await tryChange(
      question,
      { scenario },
      { people: { orla: { covers: ['stage'], changes: null } } },
      inLineRunner(),
      { count: 40 },
    );
    if (idle.kind === 'wrong') throw new Error('a lead may try that');
    expect(idle.good.high).toBeLessThan(-5);
    expect(idle.broken).toContainEqual({ kind: 'nobody there', step: 'fit', from: 0 });
    const wrong = await tryChange(
      question,
      { scenario },
      { people: { orla: { covers: ['polish'] } } },
      inLineRunner(),
      { count: 40 },
    );
    expect(wrong).toMatchObject({ kind: 'wrong' });
  });
});

describe('what if somebody calls out, and what second skills buy', () => {
  test("everybody's absence is answered, with other posts where these are better", async () => {
    const posts = { changes: 0, breaks: false, lastStart: false, rule: false } as const;
    const both = mergePatch(TWO_PEOPLE, {
      people: { bo: { skills: { glue: 2 } }, cy: { pay: 18, covers: ['sand'], skills: { sand: 3 } } },
    }) as Scenario;
    const { absences } = await planCrew({ scenario: both, target: 9, vary: posts }, inLineRunner(), {
      ...QUICK,
      absence: 100,
    });
    expect(absences!.map((one) => one.id)).toEqual(['ada', 'bo', 'cy']);
    const [ada, bo, cy] = absences!;
    // With one fewer no day surely makes more than with everybody in.
    for (const { id, loses } of absences!) expect([id, loses!.low <= 0]).toEqual([id, true]);
    expect(ada!.best).toBe('other posts');
    expect(ada!.loses!.high).toBeLessThan(-0.3);
    expect(
      ada!.sheet!.people.find((person) => person.id === 'bo')!.posts[0]!.steps.map((step) => step.id),
    ).toContain('glue');
    expect(bo!.uncovered).toEqual([]);
    expect(cy!.spread!.half).toBeGreaterThan(ada!.spread!.half);
  });

  test('where nobody is left for a step, it says which', async () => {
    const { absences, kind, wouldDo } = await planCrew({ scenario: TWO_PEOPLE, target: 30 }, inLineRunner(), {
      ...QUICK,
      oneMore: 60,
      absence: 40,
    });
    expect(absences!.find((one) => one.id === 'ada')).toMatchObject({
      uncovered: ['glue'],
      spread: { most: 0 },
    });
    expect(kind).toBe('promises');
    expect(wouldDo!.every((one) => one.enough === 'no' && one.chance.estimate === 0)).toBe(true);
    expect(wouldDo!.map((one) => one.name)).toContain('120 min of overtime for everybody who may');
  });

  test('the second skill that relieves the bottleneck comes first', async () => {
    const slow = mergePatch(TWO_PEOPLE, {
      steps: { sand: { time: { mean: 20, cv: 0.3 }, benches: 2 } },
      shift: { target: 6 },
    }) as Scenario;
    const { rows, level } = await crossTraining({ scenario: slow }, inLineRunner(), { count: 150 });
    expect(level).toBe(3);
    expect(rows.map((row) => `${row.person} ${row.step}`)).toEqual(['ada sand', 'bo glue']);
    expect(rows[0]!.gain.low).toBeGreaterThan(0.5);
    await expect(crossTraining({ scenario: slow }, inLineRunner(), { level: 5 })).rejects.toThrow(
      'A skill level is 1 to 4',
    );
  });
});

test('planning stops when it is told to', async () => {
  const stop = new AbortController();
  const stages: string[] = [];
  const planning = planCrew(
    { scenario: TWO_PEOPLE },
    inLineRunner(),
    QUICK,
    ({ stage }) => {
      stages.push(stage);
      stop.abort(new Error('enough'));
    },
    stop.signal,
  );
  await expect(planning).rejects.toThrow('enough');
  expect(new Set(stages)).toEqual(new Set(['search']));
});

describe('limits of exposure', () => {
  const sanding = mergePatch(TWO_PEOPLE, {
    people: {
      bo: { skills: { sand: 3, unclamp: 3 } },
      cy: { pay: 18, covers: ['sand', 'unclamp'], skills: { sand: 3, unclamp: 3 } },
    },
    steps: { sand: { benches: 2 } },
    limits: { vibration: { sand: 9 } },
  }) as Scenario;

  test("a shift's points are those of the ready-reckoner over the minutes at each step", () => {
    const limits = resolveLimits({ vibration: { sand: 9, glue: 2 }, trigger: { sand: 60 } });
    const shift = resolve(sanding);
    const layout = layoutOf(compile(shift));
    const { rows } = runJob({ shifts: [shift], from: 0, count: 20 });
    for (let row = 0; row < 20; row++) {
      shift.people.forEach((_, person) => {
        const place = row * layout.size + person * layout.personStates;
        const minutes = Object.fromEntries(
          layout.steps.map((step, at) => {
            const state = place + workingAt(layout.gear.length, at);
            return [
              step,
              rows[0]![layout.at.personMinutes + state]! + rows[0]![layout.at.personOvertime + state]!,
            ];
          }),
        );
        expect(pointsOf(rows[0]!, row * layout.size, layout, limits, person)).toBeCloseTo(
          exposureOf(minutes, limits).points,
          9,
        );
      });
    }
    expect(pointsOf(rows[0]!, 0, layout, limits, 1)).toBeGreaterThan(10);
  });

  test("a plan that takes somebody over the file's limit is never offered", async () => {
    // As if the times were known: what is not known of them spreads the points, and no plan is left over.
    const known = { ...sanding, study: { ...sanding.study, timesKnown: true } };
    const free = await planCrew({ scenario: known, target: 11, cheapest: true }, inLineRunner(), QUICK);
    const high = Math.max(...free.exposure.map((one) => one.high));
    const held = await planCrew(
      {
        scenario: known,
        target: 11,
        cheapest: true,
        limits: { ...known.limits, vibrationPoints: 0.9 * high },
      },
      inLineRunner(),
      { ...QUICK, report: 400 },
    );
    expect(['makes', 'promises']).toContain(held.kind);
    expect(held.search.overLimit).toBeGreaterThan(0);
    for (const one of held.exposure) expect(one.over).toBeLessThan(0.04);
  });

  test('where every plan breaks it, none is offered and it says why', async () => {
    const none = await planCrew(
      { scenario: sanding, target: 11, limits: { ...sanding.limits, vibrationPoints: 1 } },
      inLineRunner(),
      QUICK,
    );
    expect(none.kind).toBe('over the limit');
    expect(none.promise).toBeNull();
    expect(answerSentences(none)[0]).toContain('No plan is offered');
  });
});
