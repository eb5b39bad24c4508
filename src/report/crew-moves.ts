/** Who moves and why, and the plan beside the file's own posts, in words. */
import type { CrewMove } from '../staffing/moves.ts';
import type { CrewPlan } from '../staffing/plan-crew.ts';
import type { PlanRow } from '../staffing/plan-rows.ts';
import type { SheetPerson } from '../staffing/sheet.ts';
import type { Block } from '../document/document.ts';
import { differenceSentence } from '../words/sentences.ts';
import { chanceWithRange } from '../words/study-words.ts';
import { counted, fixed, listed, money, percent, plain } from '../words/words.ts';
import { clockIn } from './crew-sheet.ts';

type Clock = (minutes: number) => string;

/** "Kofi: sand, then clean (in the file: clean)." and what that does. */
export function movesSentences(plan: CrewPlan, currency: string): string[] {
  const { moves, filed } = plan;
  if (filed.isPlan) return ['Nobody moves: the plan is the posts as the file has them.'];
  if (moves === null) return [];
  const clock = clockIn(plan.sheet);
  const [shows, hidden] = [moves.filter(hasEffect), moves.filter((one) => !hasEffect(one))];
  const names = hidden.map(({ moved }) =>
    moved.kind === 'person'
      ? moved.name
      : moved.kind === 'overtime'
        ? 'overtime'
        : `the last start of ${moved.step}`,
  );
  return [
    ...shows.map((one) => `${movedWords(one, clock)} ${effectWords(one, plan, currency)}`.trim()),
    ...(names.length === 0 ? [] : [`Changed as well, without a difference that shows: ${listed(names)}.`]),
  ];
}

/** Whether leaving the move out makes a difference that a reader would see. */
function hasEffect({ effect }: CrewMove): boolean {
  if (effect.kind === 'needed') return true;
  const { good, cost, chances } = effect;
  const open = ({ low, high }: { low: number; high: number }): boolean => low <= 0 && high >= 0;
  const alike = chances === null || percent(chances[0]) === percent(chances[1]);
  return !(open(good) && (cost === null || open(cost)) && alike);
}

/** "Kofi and Ines move", for the end of the answer; empty where nobody does. */
export function whoMoves({ moves, filed }: CrewPlan): string {
  if (filed.isPlan) return 'The posts stay as the file has them.';
  const names = (moves ?? []).flatMap(({ moved }) => (moved.kind === 'person' ? [moved.name] : []));
  if (names.length === 0) return '';
  return `${listed(names)} ${names.length === 1 ? 'does' : 'do'} something else than in the file.`;
}

function movedWords({ moved }: CrewMove, clock: Clock): string {
  switch (moved.kind) {
    case 'person':
      return personWords(moved.name, moved.before, moved.after, clock);
    case 'overtime':
      if (moved.after === null) return 'Nobody stays longer, though the file allows for it.';
      return moved.before !== null && moved.before.cap === moved.after.cap
        ? `Of those the file may keep on, only ${listed(moved.names)} may be, up to ${plain(moved.after.cap)} min.`
        : `${listed(moved.names)} may be kept up to ${plain(moved.after.cap)} min${moved.before === null ? '' : `, not ${plain(moved.before.cap)} as in the file`}.`;
    case 'last start':
      return `No ${moved.step} is begun after ${clock(moved.after)}${moved.before === null ? '' : `, where the file says ${clock(moved.before)}`}.`;
  }
}

function personWords(name: string, before: SheetPerson, after: SheetPerson, clock: Clock): string {
  const [was, is] = [postsWords(before, clock), postsWords(after, clock)];
  const posts = was === is ? [] : [`${is} (in the file: ${was})`];
  const rule =
    before.rule === after.rule
      ? []
      : [
          after.rule === 'oldest'
            ? 'takes the piece that has waited longest, whichever step it is at'
            : 'takes the first of these steps that can begin',
        ];
  const later = after.breaks.filter((one) => one.moved);
  const breaks =
    later.length === 0
      ? []
      : [`${later.length === 1 ? 'break' : 'breaks'} at ${listed(later.map((one) => clock(one.from)))}`];
  return `${name}: ${[...posts, ...rule, ...breaks].join('; ')}.`;
}

/** "sand, then clean" where the first goes before the second; "sand; from 10:40 clean" over the day. */
const postsWords = ({ posts }: SheetPerson, clock: Clock): string =>
  posts
    .map(
      ({ from, steps }, at) =>
        `${at === 0 ? '' : `from ${clock(from)} `}${steps.map((step) => step.name).join(', then ') || 'nothing'}`,
    )
    .join('; ');

function effectWords({ effect }: CrewMove, plan: CrewPlan, currency: string): string {
  if (effect.kind === 'needed')
    return `Without this nobody would stand at ${listed(effect.steps, 'or') || 'a step'} at some time.`;
  const level = plan.promise ?? plan.target;
  const good = differenceSentence({ kind: 'thing', words: 'this' }, effect.good);
  const chances =
    effect.chances === null || level === null
      ? []
      : [
          `${plain(level)} in ${percent(effect.chances[1])} of the shifts, ${percent(effect.chances[0])} without it`,
        ];
  const cost = effect.cost;
  const dearer =
    cost === null || (cost.low <= 0 && cost.high >= 0)
      ? []
      : [
          `it ${cost.estimate > 0 ? 'costs' : 'saves'} ${money(Math.abs(cost.estimate), currency, 2)} a shift`,
        ];
  const more = [...chances, ...dearer];
  return `${good}${more.length === 0 ? '' : ` That is ${listed(more, 'and')}.`}`;
}

/** The plan, the file's own posts and the runner-up: pieces, chance, cost and what they are worth. */
export function besideTable(plan: CrewPlan, currency: string): Block[] {
  const { target, promise, filed, row, runnerUp, objective } = plan;
  const levels = [target, promise].filter(
    (one, at, all): one is number => one !== null && all.indexOf(one) === at,
  );
  const paid = plan.search.economy === 'cost';
  const worth = row.worth !== null;
  const cells = (name: string, one: PlanRow): string[] => [
    name,
    fixed(one.good.estimate, 1),
    ...levels.map((level) => chanceWithRange((level === target ? one.chance : one.promiseChance)!)),
    ...(paid ? [money(one.cost.estimate, currency, 2)] : []),
    ...(worth ? [one === filed ? '-' : signed(one.worth! - filed.worth!, currency)] : []),
  ];
  const offered = plan.kind !== 'over the limit';
  const rows = [
    ...(offered && !filed.isPlan ? [cells('The plan', row)] : []),
    cells(filed.isPlan && offered ? 'The plan: the file’s own posts' : 'The file’s own posts', filed),
    ...(runnerUp === null || !offered ? [] : [cells('The runner-up', runnerUp)]),
  ];
  return [
    {
      kind: 'table',
      caption: `Beside the posts as the file has them, ${counted(row.good.count, 'shift')} of the same luck each.${worth ? ` Worth: ${money(objective.margin, currency)} for every good unit${Number.isFinite(objective.wanted) ? ` up to ${plain(objective.wanted)}` : ''}, less labor; against the file’s posts.` : ''}`,
      head: [
        '',
        'Good units',
        ...levels.map((level) => `Makes ${plain(level)}`),
        ...(paid ? ['Labor'] : []),
        ...(worth ? ['Worth more'] : []),
      ],
      rows,
      align: ['left', ...rows[0]!.slice(1).map(() => 'right' as const)],
    },
    ...(filed.overLimit > 0.01
      ? [
          {
            kind: 'paragraph' as const,
            text: `With the file’s own posts somebody goes over an exposure limit in ${percent(filed.overLimit)} of the shifts.`,
          },
        ]
      : []),
  ];
}

const signed = (value: number, currency: string): string =>
  `${value > 0 ? '+' : ''}${money(value, currency, 2)}`;

/** What the plan was chosen by. */
export function chosenBySentence({ objective, target, search }: CrewPlan, currency: string): string {
  const { by, margin, wanted } = objective;
  switch (by) {
    case 'worth':
      return `Chosen for what it is worth: ${money(margin, currency)} for every good unit${Number.isFinite(wanted) ? ` up to the ${plain(wanted)} due` : ''}, less labor.`;
    case 'output':
      return `The file does not say what ${search.economy === 'cost' ? 'a good unit brings in' : 'an hour costs'}: chosen for the most that can be promised${target === null ? '' : ' of what is due'}, then for how surely, then for ${search.economy === 'cost' ? 'the cost' : 'little overtime'}.`;
    case 'cost':
      return 'Chosen as the cheapest that still makes it, as asked: it may make fewer than the file’s posts.';
  }
}
