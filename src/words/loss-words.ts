/** The staircase in words: what a tread is called, why one goes up, where a trial says something else. */
import type { Loss, StaircaseResult, StaircaseTread } from '../study/staircase.ts';
import { capitalized, counted, fixed, listed, rangeText } from './words.ts';

const NAMES: Record<Loss, string> = {
  posts: 'posts and benches as they are',
  'times that vary': 'times that vary',
  'clamps waiting for hands': 'clamps waiting for hands',
  'full racks': 'full racks',
  breaks: 'breaks and times away',
  'tidying up': 'tidying up',
  overtime: 'overtime not worked to its cap',
  'who is in': 'absence and lateness',
  'gear out of order': 'gear out of order',
  holds: 'pieces on hold',
  arrivals: 'parts that run out',
  'opening stock': 'the stock of the morning',
};

/** Why something that is called a loss makes more, of those where it can. */
export const WHY_MORE: Record<Loss, string> = {
  posts: 'the pieces in hand at the end are finished too',
  'times that vary': 'quick pieces get through the end of the day, slow ones wait for the next',
  'clamps waiting for hands':
    'taking clamps off fills minutes that would be idle, and no hands kept for it would make up for theirs',
  'full racks': 'a full rack stops what would only pile up and sends hands where they are wanted',
  breaks: 'glue cures while everybody is off, and clamps come free by themselves',
  'tidying up': 'the last minutes of the day would begin little that gets finished',
  overtime: 'hours beyond the end begin little that gets finished',
  'who is in': 'the others make up for it',
  'gear out of order': 'what is repaired in time was not wanted then',
  holds: 'what stands aside leaves room for the others',
  arrivals: 'what does not come in does not pile up either',
  'opening stock': 'what stands there in the morning is work already done',
};

/** Several that are not told from nothing. */
const isSmall = ({ losses, alone }: Pick<StaircaseTread, 'losses' | 'alone'>): boolean =>
  losses.length > 1 && alone === null;

/** "clamps waiting for hands and full racks"; those that are too small to tell are counted. */
export function lossName(tread: Pick<StaircaseTread, 'losses' | 'alone'>): string {
  const names = tread.losses.map((loss) => NAMES[loss]);
  return isSmall(tread) ? `${counted(names.length, 'more cause')}, each too small to tell` : listed(names);
}

/** Under this a trial and its tread are about the same, units a shift. */
export const ABOUT = 0.5;

export const agrees = ({ change, alone }: StaircaseTread): boolean =>
  alone === null || Math.abs(alone.estimate + change.estimate) <= ABOUT;

/** Where it starts, in a sentence. @param ceiling of this one shift, with its stock and what comes in. */
export function startSentence(
  { most, spreadsheet }: Pick<StaircaseResult, 'most' | 'spreadsheet'>,
  ceiling: number,
): string {
  const sheet = Number.isFinite(spreadsheet)
    ? ` A spreadsheet of averages, which counts shared hands in full at each step, says ${fixed(spreadsheet, 1)}.`
    : '';
  const other =
    !Number.isFinite(ceiling) || Math.abs(ceiling - most) < 0.05
      ? ''
      : ` This one shift’s ceiling is ${fixed(ceiling, 1)}: its stock, what comes in and the pieces in hand at the end are counted there.`;
  return `It starts from ${fixed(most, 1)}, the most this crew and gear can keep up, nobody ever waiting and parts always there.${other}${sheet}`;
}

/** Why treads go up, where a trial differs and why, and what the order does, a sentence each. */
export function stairSentences({ treads }: Pick<StaircaseResult, 'treads'>): string[] {
  const up = treads.filter(({ change }) => change.low > 0);
  const order = Math.max(0, ...treads.map(({ byOrder }) => Math.abs(byOrder)));
  return [
    ...up.map(
      (tread) =>
        `${capitalized(lossName(tread))}: ${fixed(tread.change.estimate, 1)} more, for ${tread.losses.map((loss) => WHY_MORE[loss]).join('; ')}.`,
    ),
    ...treads.filter((tread) => !agrees(tread)).map(aloneSentence),
    ...treads
      .filter(isSmall)
      .map(({ losses }) => `Too small to tell: ${listed(losses.map((loss) => NAMES[loss]))}.`),
    `Each cause was tried in two orders, one the reverse of the other; the order moves no tread by more than ${fixed(order, 1)}.`,
  ];
}

/** "Tried alone in the cell as it is: with “full racks” put right it makes 0.2 more (0.1 to 0.3), …" */
function aloneSentence(tread: StaircaseTread): string {
  const { change, alone } = tread;
  const given = alone!.estimate;
  const says = -change.estimate;
  const size = given < 0 ? { ...alone!, estimate: -given, low: -alone!.high, high: -alone!.low } : alone!;
  const { estimate, range } = rangeText(size);
  const way = (value: number): string => (value < 0 ? 'less' : 'more');
  const why =
    Math.abs(given) < Math.abs(says) || given * says < 0
      ? 'the rest comes only once other causes are put right as well'
      : 'once other causes are put right as well, less is left for it to give';
  return `Tried alone in the cell as it is: with “${lossName(tread)}” put right it makes ${estimate} ${way(given)}${range === '' ? '' : ` (${range})`}, where the tread says ${fixed(Math.abs(says), 1)} ${way(says)}: ${why}.`;
}
