import { Command } from 'commander';
import type { Block } from '../../document/document.ts';
import { QUESTIONS, typedCommand } from '../../staffing/questions.ts';
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
        ? printJson({ command: 'questions', version: VERSION, questions: QUESTIONS })
        : printPage({ title: 'Questions', blocks: blocks() }),
    );
}

function blocks(): Block[] {
  return [
    { kind: 'heading', level: 1, text: 'The questions, and how each is asked' },
    {
      kind: 'paragraph',
      text: 'The commands are for the demo shop; with a file of your own, name it and use its ids. Every answer says what nine, five and one shift in ten make, the chance of the target, what holds you back, what to do and what it costs.',
    },
    ...QUESTIONS.flatMap(({ number, words, ask, missing }): Block[] => [
      { kind: 'paragraph', text: `${number}. ${words}` },
      {
        kind: 'list',
        items: [...ask.map(typedCommand), ...(missing === undefined ? [] : [`Not answered yet: ${missing}`])],
      },
    ]),
  ];
}
