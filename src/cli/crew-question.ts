/** From the words of "crew" to its question: names checked, numbers read. */
import { nearest } from '../scenario/reading/fault.ts';
import { resolve } from '../scenario/resolve.ts';
import type { Scenario } from '../scenario/schema.ts';
import { openDay, type Attendance, type CrewQuestion, type Vary } from '../staffing/question.ts';
import type { Changes } from './input.ts';
import { commandWrong } from './trouble.ts';

export interface CrewWords extends Changes {
  out?: string[];
  late?: string[];
  perhaps?: string[];
  target?: number;
  overtime?: number;
  overtimeFor?: string[];
  confidence?: number;
  keep?: string[];
  cheapest?: true;
  changes: number;
}

const KEPT: Record<string, Partial<Vary>> = {
  posts: { posts: false },
  order: { order: false },
  changes: { changes: 0 },
  breaks: { breaks: false },
  'last-start': { lastStart: false },
  overtime: { overtime: false },
  rule: { rule: false },
};

/** The question as typed. Throws Trouble for names the file does not have and for numbers out of range. */
export function crewQuestion(scenario: Scenario, words: CrewWords): CrewQuestion {
  const who = (id: string): string => known(scenario, id);
  const attendance: Record<string, Attendance> = {};
  const say = (id: string, one: Attendance): void => {
    if (attendance[id] !== undefined)
      throw commandWrong(`"${id}" is named twice among --out, --late and --perhaps.`);
    attendance[id] = one;
  };
  for (const id of words.out ?? []) say(who(id), { kind: 'out' });
  for (const given of words.late ?? []) {
    const [, id, minutes, chance] = /^([^=]+)=(\d+(?:\.\d+)?)(?:@(\d+(?:\.\d+)?))?$/.exec(given) ?? [];
    if (id === undefined)
      throw commandWrong(`--late takes a person and minutes, such as kofi=30 or kofi=30@50; found ${given}`);
    say(who(id), {
      kind: 'late',
      minutes: Number(minutes),
      ...(chance === undefined ? {} : { chance: share(chance, '--late') }),
    });
  }
  for (const given of words.perhaps ?? []) {
    const [, id, percent] = /^([^=]+)=(\d+(?:\.\d+)?)$/.exec(given) ?? [];
    if (id === undefined)
      throw commandWrong(
        `--perhaps takes a person and a chance in per cent, such as ines=80; found ${given}`,
      );
    say(who(id), { kind: 'perhaps', chance: share(percent!, '--perhaps') });
  }
  const question: CrewQuestion = {
    scenario,
    attendance,
    ...(words.target === undefined ? {} : { target: words.target }),
    ...overtimeOf(scenario, words, who),
    ...(words.confidence === undefined ? {} : { confidence: words.confidence / 100 }),
    ...(words.cheapest === true ? { cheapest: true } : {}),
    vary: varyOf(words),
  };
  try {
    openDay(question);
  } catch (error) {
    if (error instanceof RangeError) throw commandWrong(error.message);
    throw error;
  }
  return question;
}

function overtimeOf(
  scenario: Scenario,
  { overtime, overtimeFor }: CrewWords,
  who: (id: string) => string,
): Pick<CrewQuestion, 'overtime'> {
  const named = overtimeFor?.map(who);
  if (overtime === undefined && named === undefined) return {};
  const filed = resolve(scenario).overtime;
  const cap = overtime ?? (filed.until === 'none' ? undefined : filed.cap);
  if (cap === undefined)
    throw commandWrong(
      '--overtime-for says of whom; --overtime says how many minutes at most, such as --overtime 45.',
    );
  return { overtime: { cap, ...(named === undefined ? {} : { who: named }) } };
}

function varyOf({ keep = [], changes }: CrewWords): Partial<Vary> {
  return keep.reduce<Partial<Vary>>(
    (vary, word) => {
      const one = KEPT[word];
      if (one === undefined)
        throw commandWrong(`--leave takes ${Object.keys(KEPT).join(', ')}; found ${word}.`);
      return { ...vary, ...one };
    },
    { changes: changes as Vary['changes'] },
  );
}

function known(scenario: Scenario, id: string): string {
  if (Object.hasOwn(scenario.people, id)) return id;
  const ids = Object.keys(scenario.people);
  const near = nearest(id, ids);
  throw commandWrong(
    `There is nobody called "${id}" in the file; it has ${ids.join(', ')}.${near === null ? '' : ` Did you mean "${near}"?`}`,
  );
}

function share(percent: string, flag: string): number {
  const value = Number(percent);
  if (value > 100) throw commandWrong(`${flag}: a chance is 0 to 100 %, not ${percent}.`);
  return value / 100;
}
