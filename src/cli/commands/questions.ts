import { Command } from 'commander';
import type { Block } from '../../document/document.ts';
import { QUESTIONS, typedCommand } from '../../staffing/questions.ts';
import { GRAMMAR, WHAT_IFS } from '../../whatif/list.ts';
import type { WhatIf } from '../../whatif/what-if.ts';
import { printJson, printPage } from '../print.ts';
import { jsonOption } from '../settings.ts';
import { VERSION } from '../../report/version.ts';

/** How each of the shop's questions is asked. */
export function questionsCommand(): Command {
  return new Command('questions')
    .description('the questions a lead asks, and the command that answers each')
    .addOption(jsonOption())
    .action(({ json }: { json?: boolean }) =>
      json === true
        ? printJson({
            command: 'questions',
            version: VERSION,
            questions: QUESTIONS,
            whatIfs: WHAT_IFS.map(listed),
          })
        : printPage({ title: 'Questions', blocks: blocks() }),
    );
}

/** As data: what can be said of a what-if without a file. */
const listed = ({ word, group, takes, says, example }: WhatIf): Record<string, string> => ({
  word,
  group,
  takes,
  says,
  example: `--${word} ${example}`,
});

const whatIfBlocks = (): Block[] => [
  { kind: 'heading', level: 2, text: 'What-ifs in words' },
  { kind: 'paragraph', text: GRAMMAR },
  {
    kind: 'list',
    items: WHAT_IFS.map(
      ({ word, takes, says, example }) =>
        `--${word} ${takes}: ${says}. ${typedCommand(['run', `--${word}`, example])}`,
    ),
  },
];

function blocks(): Block[] {
  return [
    { kind: 'heading', level: 1, text: 'The questions, and how each is asked' },
    {
      kind: 'paragraph',
      text: 'The commands are for the demo shop; with a file of your own, name it and use its ids. Every answer says what nine, five and one shift in ten make, the chance of the target, what holds you back, what to do and what it costs.',
    },
    ...QUESTIONS.flatMap(({ number, words, ask }): Block[] => [
      { kind: 'paragraph', text: `${number}. ${words}` },
      {
        kind: 'list',
        items: ask.map(typedCommand),
      },
    ]),
    ...whatIfBlocks(),
  ];
}
