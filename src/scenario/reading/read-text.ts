/**
 * From the text of a file to a plain value: size, depth and spelling of the JSON, before anything is asked
 * about its meaning.
 */
import { printParseErrorCode, visit } from 'jsonc-parser';
import { faultAt, type Fault, type Place } from './fault.ts';

/** Longest text read, in characters: 10 MB. */
export const MOST_TEXT = 10 * 1024 * 1024;
/** Deepest nesting of groups and lists. */
export const MOST_DEPTH = 40;

export type TextReading = { kind: 'value'; value: unknown } | { kind: 'wrong'; faults: Fault[] };

const wrong = (fault: Fault): TextReading => ({ kind: 'wrong', faults: [fault] });

/** Reads strict JSON (a byte order mark at the start is allowed). */
export function readText(given: string): TextReading {
  if (given.length > MOST_TEXT) {
    const size = (given.length / 1024 / 1024).toFixed(1);
    return wrong(
      faultAt(
        [],
        `a file of ${size} MB`,
        'at most 10 MB',
        'keep the observations out of the file, or thin them',
      ),
    );
  }
  const text = given.startsWith('\uFEFF') ? given.slice(1) : given;
  if (text.trim() === '') {
    return wrong(
      faultAt([], 'an empty file', 'a scenario in JSON', 'start from a copy of scenarios/one-step.json'),
    );
  }
  const tooDeep = placeTooDeep(text);
  if (tooDeep !== -1) {
    return wrong(
      faultAt(
        [],
        `groups nested deeper than ${MOST_DEPTH} at ${lineOf(text, tooDeep)}`,
        `at most ${MOST_DEPTH} levels`,
        'take brackets away; a scenario needs fewer than ten levels',
      ),
    );
  }
  return parse(text);
}

/**
 * Position of the first bracket that opens one level too many, or -1. A loop, not recursion: a hostile file
 * must not end the stack.
 */
function placeTooDeep(text: string): number {
  let depth = 0;
  let quoted = false;
  for (let i = 0; i < text.length; i++) {
    const letter = text.charCodeAt(i);
    if (quoted) {
      if (letter === 92) i++;
      else if (letter === 34) quoted = false;
    } else if (letter === 34) quoted = true;
    else if (letter === 91 || letter === 123) {
      if (++depth > MOST_DEPTH) return i;
    } else if (letter === 93 || letter === 125) depth--;
  }
  return -1;
}

function parse(text: string): TextReading {
  try {
    const value: unknown = JSON.parse(text);
    const twice = keysTwice(text);
    return twice.length > 0 ? { kind: 'wrong', faults: twice } : { kind: 'value', value };
  } catch {
    // The platform's own message differs from browser to browser; the same file must get the same sentence
    // everywhere.
    return wrong(spellingFault(text));
  }
}

/** JSON lets a key stand twice and silently keeps the last: a person or step would be lost without a word. */
function keysTwice(text: string): Fault[] {
  const faults: Fault[] = [];
  const open: Set<string>[] = [];
  visit(text, {
    onObjectBegin: () => void open.push(new Set()),
    onObjectEnd: () => void open.pop(),
    onObjectProperty: (key, offset, _length, _line, _column, path) => {
      const keys = open.at(-1)!;
      if (keys.has(key) && faults.length < 20) {
        faults.push(
          faultAt(
            [...path(), key] as Place,
            `"${key}" a second time at ${lineOf(text, offset)}`,
            'each name once in its group',
            'give one of the two another name, or take it away',
          ),
        );
      }
      keys.add(key);
    },
  });
  return faults;
}

/** "line 3, column 14" of a position, both counted from 1. */
function lineOf(text: string, offset: number): string {
  const before = text.slice(0, offset);
  const lines = before.split(/\r\n|\n|\r/);
  return `line ${lines.length}, column ${lines.at(-1)!.length + 1}`;
}

function spellingFault(text: string): Fault {
  const seen: { code: string; offset: number; length: number }[] = [];
  visit(
    text,
    {
      onError: (code, offset, length) =>
        void (seen.length < 2 && seen.push({ code: printParseErrorCode(code), offset, length })),
    },
    { disallowComments: true },
  );
  const first = seen[0] ?? { code: 'InvalidSymbol', offset: 0, length: 1 };
  const { offset, length } = first;
  const word = text.slice(offset, offset + Math.min(Math.max(length, 1), 30));
  const [what, allowed, remedy] = sentence(first.code, word, text.slice(0, offset).trimEnd().at(-1) ?? '');
  return faultAt([], `${what} at ${lineOf(text, offset)}`, allowed, remedy);
}

type Words = [found: string, allowed: string, remedy: string];

/** The fault in words, by the parser's code, the text it stumbled over and the last letter before it. */
function sentence(code: string, word: string, before: string): Words {
  const quoted = word === '' ? 'the end of the file' : JSON.stringify(word);
  switch (code) {
    case 'InvalidSymbol':
      return symbolWords(word, quoted);
    case 'PropertyNameExpected':
      return before === ',' && word === '}'
        ? ['a comma before }', 'commas only between entries', 'take the last comma away']
        : [quoted, 'a name in double quotes', 'write the name as "name"'];
    case 'ValueExpected':
      return before === ',' && word === ']'
        ? ['a comma before ]', 'commas only between entries', 'take the last comma away']
        : [
            quoted,
            'a value: a number, text in double quotes, true, false, null, a group { } or a list [ ]',
            'write the value that is missing here',
          ];
    case 'ColonExpected':
      return [quoted, 'a colon between a name and its value', 'put a colon here'];
    case 'CommaExpected':
      return word === ':'
        ? ['a colon', 'clock times in double quotes', 'write the clock time as "HH:MM", for example "06:00"']
        : [quoted, 'a comma between entries', 'put a comma before it'];
    case 'CloseBraceExpected':
      return [quoted, 'a closing }', 'close the group with }; the file may have been cut off'];
    case 'CloseBracketExpected':
      return [quoted, 'a closing ]', 'close the list with ]; the file may have been cut off'];
    case 'EndOfFileExpected':
      return [quoted, 'nothing after the last }', 'take away what follows, or one } too many before it'];
    case 'InvalidCommentToken':
    case 'UnexpectedEndOfComment':
      return ['a comment', 'no comments', 'put the remark into "about" or take it away'];
    case 'UnexpectedEndOfString':
    case 'InvalidCharacter':
      return [
        'text whose closing quote is missing on its line',
        'text in double quotes, on one line',
        'put the closing " (a new line inside text is written \\n)',
      ];
    case 'InvalidEscapeCharacter':
    case 'InvalidUnicode':
      return [
        'a backslash sign that means nothing',
        '\\" \\\\ \\/ \\b \\f \\n \\r \\t and \\u with four digits',
        'write \\\\ for a backslash',
      ];
    default:
      return [quoted, 'a number such as 12 or 0.5', 'write the number with digits and one point'];
  }
}

function symbolWords(word: string, quoted: string): Words {
  if (/^[-+]?(NaN|Infinity)/i.test(word))
    return [
      word,
      'numbers that can be counted',
      'write the number, or take the entry away where there is none',
    ];
  if (/^[.+-]/.test(word))
    return [quoted, 'a number that begins with a digit', 'write 0.5, not .5, and no plus sign'];
  if (/^['‘’“”]/.test(word)) return [quoted, 'straight double quotes', 'write names and text in " and "'];
  return [quoted, 'names and text in double quotes', 'put double quotes around it, or take it away'];
}
