/** What stands under every answer: remarks on the file, cautions, and how to get the same numbers again. */
import { placeInWords } from '../../scenario/reading/place-words.ts';
import type { Block } from '../../document/document.ts';
import { plain } from '../../words/words.ts';
import { cautionsFor, inShort, type Caution } from '../../scenario/cautions.ts';
import { applyOption } from '../../scenario/options.ts';
import type { Scenario } from '../../scenario/schema.ts';
import type { Input } from '../input.ts';
import { VERSION } from '../version.ts';

export interface Repeat {
  /** Words of the command line that give these numbers again, "clampwright" first. */
  command: string[];
  /** Shifts run of each choice. */
  count: number;
}

/** What came in, as every answer opens with it: the name, and whether it is invented. */
export function openingWords({ scenario, demo, file, applied }: Input): string {
  const what = demo ? `No file was named, so this is the demo shop (${file}).` : `From ${file}.`;
  const invented = scenario.invented === true ? ' Its people and figures are invented.' : '';
  return `${what}${invented}${applied.length === 0 ? '' : ` With: ${applied.join('; ')}.`}`;
}

export function foot(input: Input, repeat: Repeat, cautions: Caution[]): Block[] {
  return [
    ...(input.remarks.length === 0
      ? []
      : [
          { kind: 'heading' as const, level: 2 as const, text: 'Worth a look in the file' },
          {
            kind: 'list' as const,
            items: input.remarks.map((remark) => remark.text),
            short: {
              kind: 'list' as const,
              items: [
                ...input.remarks.map(
                  ({ place, found }) => `${placeInWords(place, input.scenario)}: ${found}.`,
                ),
                '“clampwright check” says how to put it right.',
              ],
            },
          },
        ]),
    ...cautionPart(cautions),
    { kind: 'heading', level: 2, text: 'The same numbers again' },
    {
      kind: 'facts',
      facts: [
        { name: 'File', value: input.file },
        { name: 'Seed', value: input.seed },
        { name: 'Shifts of each choice', value: plain(repeat.count) },
        { name: 'Version', value: `clampwright ${VERSION}` },
        { name: 'Command', value: repeat.command.map(quoted).join(' ') },
      ],
    },
  ];
}

/** The cautions: in full where they were asked for or a page is handed on, else in a sentence. */
export function cautionPart(cautions: Caution[]): Block[] {
  return [
    { kind: 'heading', level: 2, text: 'Cautions' },
    {
      kind: 'list',
      items: cautions.map(({ text, source }) => (source === undefined ? text : `${text} (${source})`)),
      short: {
        kind: 'paragraph',
        text: `${inShort(cautions)} With --cautions they stand here in full, with their sources.`,
      },
    },
  ];
}

/** The cautions of the scenario and of options to it, each once. */
export function cautionsOf(scenario: Scenario, base: Scenario = scenario, options: string[] = []): Caution[] {
  const all = [scenario, ...options.map((id) => applyOption(base, id))].flatMap(cautionsFor);
  return all.filter((one, i) => all.findIndex((other) => other.text === one.text) === i);
}

/** A word as shells take it, in double quotes where that does; what has signs of sh in it is for sh alone. */
export function quoted(word: string): string {
  if (/^[\w./:=@+-]+$/.test(word)) return word;
  return /["$`\\!%]/.test(word) ? `'${word.replaceAll("'", `'\\''`)}'` : `"${word}"`;
}
