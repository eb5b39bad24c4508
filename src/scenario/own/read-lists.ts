/** People and steps as they are typed in one go, or pasted from a spreadsheet. */
import type { StepAsked } from './starts.ts';

const MOST_NAME = 80;

/** Names with commas, semicolons, tabs or line breaks between; none twice, no empty ones. */
export function readNames(text: string): string[] {
  const names = text
    .split(/[,;\t\r\n]+|\s+(?:and|&)\s+/)
    .map((name) => name.replace(/\s+/g, ' ').trim().slice(0, MOST_NAME))
    .filter((name) => name !== '');
  return [...new Set(names)];
}

/** "dry" alone, not a dry fit. */
const WAITS = /\b(cur(e|es|ing)|drying|rest(s|ing)?|wait(s|ing)?|cool(s|ing)?)\b|\bdry$/i;

export interface StepsRead {
  steps: StepAsked[];
  /** Lines without a name or with what is no number of minutes, as they stand. */
  unread: string[];
}

/**
 * One step a line: its name and its usual minutes, with a tab, comma, semicolon, colon or space between. What
 * cures, dries, rests or waits needs nobody. A first line without any minutes is a heading where the others
 * have some.
 */
export function readSteps(text: string): StepsRead {
  const lines = text
    .split(/\r?\n/)
    .map((line) => line.trim())
    .filter((line) => line !== '');
  const read = lines.map((line) => ({ line, step: readStep(line) }));
  const titled = read.length > 1 && read[0]!.step === null && read.slice(1).some(({ step }) => step !== null);
  const body = titled ? read.slice(1) : read;
  return {
    steps: body.flatMap(({ step }) => step ?? []),
    unread: body.filter(({ step }) => step === null).map(({ line }) => line),
  };
}

function readStep(line: string): StepAsked | null {
  const found = /^(?:\d+[.)]\s+)?(.*?)[\t,;: ]\s*(\d+(?:[.,]\d+)?)\s*(?:min(?:utes|\.)?|m|')?\s*$/iu.exec(
    line,
  );
  const name = found?.[1]!
    .replace(/[\t,;:]+/g, ' ')
    .replace(/\s+/g, ' ')
    .trim()
    .slice(0, MOST_NAME);
  const minutes = Number(found?.[2]!.replace(',', '.'));
  if (name === undefined || name === '' || !(minutes > 0)) return null;
  return { name, minutes, wait: WAITS.test(name), guessed: false };
}
