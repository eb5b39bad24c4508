/** What stood, by what would have to be put right, beside what that brings when it is tried. */
import type { Block } from '../../document/document.ts';
import type { ReasonSums } from '../../record/why/sums.ts';
import type { ResolvedShift } from '../../scenario/resolve.ts';
import { stoodOf, type RemedyTrial, type Stood, type StoodFor } from '../../study/by-reason.ts';
import { remedyName, stoodSentence, trialSentences } from '../../words/stood-words.ts';
import { differenceCell } from '../../words/study-words.ts';
import { capitalized, fixed, inSentence, plural } from '../../words/words.ts';
import { reasonTables } from './reasons.ts';

/** `trials` empty: none was made. */
export interface StoodTold {
  shifts: ResolvedShift[];
  sums: ReasonSums[];
  stood: Stood;
  trials: RemedyTrial[];
}

/** Null where no shift was run. */
export function tellStood(
  shifts: ResolvedShift[],
  sums: ReasonSums[],
  trials: RemedyTrial[] = [],
): StoodTold | null {
  return (sums[0]?.count ?? 0) === 0 ? null : { shifts, sums, stood: stoodOf(shifts, sums), trials };
}

/** As data, with its sentences. */
export function stoodJson({ shifts, stood, trials }: StoodTold): unknown {
  const shift = shifts[0]!;
  const idOf = (at: number): string => shift.gear[at]!.id;
  return {
    tightest: stood.tightest === null ? null : { ...stood.tightest, gear: idOf(stood.tightest.gear) },
    reasons: stood.reasons.map(({ remedy, gear, people, pieces }) => ({
      reason: remedy,
      name: remedyName(remedy),
      gear: Object.fromEntries(
        gear.flatMap((minutes, at) => (shift.gear[at]!.kind === 'bench' ? [] : [[idOf(at), minutes]])),
      ),
      people,
      units: pieces,
      tried: trials.find((one) => one.remedy === remedy)?.gain ?? null,
    })),
    words: stoodWords({ stood, trials, shifts }),
  };
}

/** What the minutes say, and where a trial says something else and why. */
export const stoodWords = ({ shifts, stood, trials }: Omit<StoodTold, 'sums'>): string[] =>
  [stoodSentence(stood, shifts[0]!), ...trialSentences(stood, trials)].filter((text) => text !== '');

/** The section of `limits` and of its page: sentence, trials, then the minutes of the first shift. */
export function stoodBlocks(told: StoodTold): Block[] {
  const shift = told.shifts[0]!;
  return [
    { kind: 'heading', level: 2, text: 'Where the minutes go, and why' },
    ...stoodWords(told).map((text): Block => ({ kind: 'paragraph', text })),
    ...stoodTable(told),
    ...reasonTables(shift, told.sums[0]!),
  ];
}

const LEAST = 0.5;

/** A row a reason: minutes of each kind of gear and of the people, pieces those would be, and the trial. */
export function stoodTable({ shifts, stood, trials }: Omit<StoodTold, 'sums'>): Block[] {
  const shift = shifts[0]!;
  const { tightest } = stood;
  const kinds = shift.gear.flatMap(({ kind, name, count }, at) =>
    kind === 'bench' || count === 0 ? [] : [{ at, name: plural(inSentence(name)) }],
  );
  const size = ({ gear, people }: StoodFor): number => Math.max(people, ...kinds.map(({ at }) => gear[at]!));
  const rows = stood.reasons.filter((line) => size(line) >= LEAST);
  if (rows.length === 0) return [];
  const held = tightest === null ? null : plural(inSentence(shift.gear[tightest.gear]!.name));
  return [
    {
      kind: 'table',
      caption: `What stood, by what would have to be put right: minutes a shift${held === null ? '' : `, good units that those of the ${held} would hold`}${trials.length === 0 ? '' : ', and good units more when that alone is put right and tried'}.`,
      head: [
        '',
        ...kinds.map(({ name }) => capitalized(name)),
        'People',
        ...(held === null ? [] : ['Units']),
        ...(trials.length === 0 ? [] : ['When tried']),
      ],
      align: [
        'left',
        ...kinds.map((): 'right' => 'right'),
        'right',
        ...(held === null ? [] : ['right' as const]),
        ...(trials.length === 0 ? [] : ['right' as const]),
      ],
      rows: rows.map((line) => [
        remedyName(line.remedy),
        ...kinds.map(({ at }) => fixed(line.gear[at]!, 0)),
        fixed(line.people, 0),
        ...(held === null ? [] : [fixed(line.pieces, 1)]),
        ...(trials.length === 0 ? [] : [trialWords(line, trials)]),
      ]),
    },
  ];
}

function trialWords({ remedy }: StoodFor, trials: readonly RemedyTrial[]): string {
  const trial = trials.find((one) => one.remedy === remedy);
  return trial === undefined ? '-' : differenceCell(trial.gain);
}
