import { resolvePlant } from '../../scenario/resolve.ts';
import { Command } from 'commander';
import { describeChanges, shiftsOf } from '../../scenario/options.ts';
import { counted } from '../../words/words.ts';
import type { Block, Page } from '../../document/document.ts';
import { readInput, type Input } from '../input.ts';
import { cautionsOf } from '../../report/pages/foot.ts';
import { printJson, printPage } from '../print.ts';
import { fileArgument, jsonOption, optionOption, withOption } from '../settings.ts';
import { VERSION } from '../../report/version.ts';

interface Words {
  json?: boolean;
  option?: string[];
  with?: string;
}

/** Whether a file can be run, what is worth a look in it, and what its options change. */
export function checkCommand(): Command {
  return new Command('check')
    .description('whether a file can be run: what is wrong with it, where, and the likely remedy')
    .addArgument(fileArgument())
    .addOption(optionOption())
    .addOption(withOption())
    .addOption(jsonOption())
    .action((file: string | undefined, words: Words) => check(file, words));
}

async function check(file: string | undefined, words: Words): Promise<void> {
  const input = await readInput(file, words);
  const cautions = cautionsOf(
    input.base,
    input.base,
    resolvePlant(input.base).options.map(({ id }) => id),
  );
  if (words.json === true)
    printJson({
      command: 'check',
      version: VERSION,
      file: input.file,
      kind: 'fine',
      remarks: input.remarks,
      cautions,
    });
  else
    printPage(
      checkPage(
        input,
        cautions.map((one) => one.text),
      ),
    );
}

function checkPage({ scenario, base, file, remarks }: Input, cautions: string[]): Page {
  const list = (title: string, items: string[]): Block[] =>
    items.length === 0
      ? []
      : [
          { kind: 'heading', level: 2, text: title },
          { kind: 'list', items },
        ];
  const options = resolvePlant(base).options.map(
    ({ id, name }) =>
      `${id}: ${name} (${describeChanges(base, base.options![id]!.changes).join('; ') || 'changes nothing'})`,
  );
  return {
    title: base.name,
    blocks: [
      { kind: 'heading', level: 1, text: base.name },
      { kind: 'paragraph', text: `${file} is fine and can be run: ${sizeWords(scenario)}.` },
      ...list(
        'Worth a look',
        remarks.map((remark) => remark.text),
      ),
      ...list('Its options', options),
      ...list('Cautions', cautions),
    ],
  };
}

function sizeWords(scenario: Input['scenario']): string {
  const shifts = shiftsOf(scenario);
  const { steps, people, gear } = shifts[0]!;
  return [
    counted(steps.length, 'step'),
    counted(people.length, 'person').replace('persons', 'people'),
    counted(gear.filter((one) => one.kind === 'gear').length, 'kind').replace(/(kinds?)/, '$1 of gear'),
    counted(shifts.length, 'shift'),
  ].join(', ');
}
