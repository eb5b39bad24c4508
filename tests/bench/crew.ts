/**
 * How planning a crew grows with people and steps, what each part of it takes, and the shifts the race saves.
 */
import { readFileSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { planCrew, type CrewPlan } from '../../src/staffing/plan-crew.ts';
import type { CrewQuestion } from '../../src/staffing/question.ts';
import type { Runner } from '../../src/record/job.ts';
import type { Scenario } from '../../src/scenario/schema.ts';

/**
 * A line of so many hands steps with a glue-up and a cure in it, each person at home at one step and able to
 * do the next two.
 */
export function lineOf(steps: number, people: number): Scenario {
  const names = Array.from({ length: steps }, (_, at) => `step-${at + 1}`);
  const middle = Math.floor(steps / 2) - 1;
  const entries = names.flatMap((name, at): [string, Scenario['steps'][string]][] => {
    const step: Scenario['steps'][string] = {
      time: { mean: 8 + (at % 3), cv: 0.25 },
      rack: 6,
      benches: Math.ceil(people / steps),
    };
    if (at !== middle) return [[name, step]];
    return [
      [name, { ...step, whole: true, takes: [{ gear: 'clamp', until: names[at + 1]! }] }],
      ['cure', { kind: 'wait', time: 30 }],
    ];
  });
  const crew = Array.from({ length: people }, (_, at): [string, Scenario['people'][string]] => {
    const home = at % steps;
    const able = [home, (home + 1) % steps, (home + 2) % steps].map((step) => names[step]!);
    return [
      `person-${at + 1}`,
      { pay: 20 + (at % 4), covers: [able[0]!], skills: Object.fromEntries(able.map((step) => [step, 3])) },
    ];
  });
  return {
    format: 1,
    name: `${steps} steps, ${people} people`,
    steps: Object.fromEntries(entries),
    gear: { clamp: { count: 4 } },
    people: Object.fromEntries(crew),
    shift: {
      breaks: [
        { from: '09:00', minutes: 10 },
        { from: '11:30', minutes: 30 },
      ],
      target: Math.round((people / steps) * 38),
    },
    intake: { kind: 'at start', units: 80 },
  };
}

const SIZES = [
  [4, 3],
  [6, 4],
  [6, 6],
  [8, 6],
  [8, 9],
  [10, 12],
] as const;

export async function crewBench(
  open: (threads: number) => Runner,
  print: (line: string) => void,
): Promise<void> {
  const threads = Math.min(2, availableParallelism());
  const demo = JSON.parse(readFileSync('scenarios/chair-works.json', 'utf8')) as Scenario;
  print(
    `Planning a crew on ${threads} threads: seconds for the plan alone, and with constraint and absences; shifts the race took and equal numbers would have.`,
  );
  print('| cell | plan, s | all, s | plans tried | search shifts | race shifts | equal numbers | saved |');
  print('| --- | --- | --- | --- | --- | --- | --- | --- |');
  const out = { kind: 'out' } as const;
  const questions: [string, CrewQuestion][] = [
    ['chair works, all in, 45 min', { scenario: demo, overtime: { cap: 45 } }],
    ['chair works, one out, 45 min', { scenario: demo, attendance: { wren: out }, overtime: { cap: 45 } }],
    [
      'chair works, two out, 45 min',
      { scenario: demo, attendance: { tova: out, kofi: out }, overtime: { cap: 45 } },
    ],
    ...SIZES.map(([steps, people]): [string, CrewQuestion] => [
      `${steps} steps, ${people} people`,
      { scenario: lineOf(steps, people), overtime: { cap: 30 } },
    ]),
  ];
  for (const [name, question] of questions) {
    const alone = await timed(open, threads, question, { oneMore: 0, absence: 0 });
    const whole = await timed(open, threads, question, {});
    const { tried, shifts } = alone.plan.search;
    print(
      `| ${[name, alone.seconds.toFixed(1), whole.seconds.toFixed(1), tried, shifts.search, shifts.race, shifts.equal, `${(100 * (1 - shifts.race / shifts.equal)).toFixed(0)} %`].join(' | ')} |`,
    );
  }
}

async function timed(
  open: (threads: number) => Runner,
  threads: number,
  question: CrewQuestion,
  settings: object,
): Promise<{ plan: CrewPlan; seconds: number }> {
  const runner = open(threads);
  const from = performance.now();
  try {
    const plan = await planCrew(question, runner, settings);
    return { plan, seconds: (performance.now() - from) / 1000 };
  } finally {
    await runner.close();
  }
}
