/**
 * The questions a lead asks of a cell, the most frequent and costly first, and how each is asked: the words
 * that follow `clampwright` on the command line, for the demo shop. With a file of one's own the ids in them
 * change, nothing else. Each is run by a test.
 */
export interface ShopQuestion {
  number: number;
  words: string;
  /** One command a way of asking it. */
  ask: string[][];
}

export const QUESTIONS: ShopQuestion[] = [
  { number: 1, words: 'Do we make 22 today?', ask: [['run']] },
  { number: 2, words: 'One out: who goes where?', ask: [['crew', '--out', 'wren']] },
  {
    number: 3,
    words: 'Two out: still 22, and with how much overtime?',
    ask: [['crew', '--out', 'tova,kofi', '--overtime', '45']],
  },
  {
    number: 4,
    words: 'Overtime: how long, at which posts, and where does more stop paying?',
    ask: [
      ['crew', '--overtime', '60'],
      ['compare', '--overtime', '15', '--overtime', '30', '--overtime', '45', '--overtime', '60', '--why'],
    ],
  },
  {
    number: 5,
    words: 'When is the last glue-up, tonight against tomorrow’s start?',
    ask: [['compare', '--shifts', '2', '--last-start', 'glue=12:30', '--last-start', 'glue=13:30', '--why']],
  },
  {
    number: 6,
    words: 'Clamps empty or loaded at the start?',
    ask: [['compare', '--options', 'empty-clamps', '--why']],
  },
  {
    number: 7,
    words: 'What does a third clamp set do, and a fourth?',
    ask: [['one-more', '--gear', 'clamp']],
  },
  {
    number: 8,
    words: 'Should the fitter also unclamp?',
    ask: [['compare', '--also', 'orla=unclamp', '--why']],
  },
  {
    number: 9,
    words: 'Move somebody in mid-shift, and when?',
    ask: [
      [
        'compare',
        '--move',
        'bastian=clean,unclamp,stage@10:30',
        '--move',
        'bastian=clean,unclamp,stage@12:40',
        '--why',
      ],
      ['now', '--at', '10:40', '--good', '8', '--waiting', 'fit=3,sand=2', '--curing', '12'],
    ],
  },
  {
    number: 10,
    words: 'The parts come an hour late?',
    ask: [['compare', '--late-parts', '60', '--why']],
  },
  {
    number: 11,
    words: 'More of the longer product today?',
    ask: [['compare', '--mix', 'bent=60', '--why']],
  },
  {
    number: 12,
    words: 'A rush order: when is it out, and what does it push back?',
    ask: [
      ['compare', '--rush', 'bent:2@09:00', '--why'],
      [
        'week',
        '--from',
        '2027-03-08',
        '--no-crew',
        '--rush',
        'bent:2@09:00',
        '--order',
        'school:6=2027-03-09',
      ],
    ],
  },
  {
    number: 13,
    words: 'Stagger the breaks?',
    ask: [['compare', '--break', 'tova,kofi=+15', '--break', 'tova,kofi=+30', '--why']],
  },
  {
    number: 14,
    words: 'A clamp set breaks for two hours?',
    ask: [['compare', '--gear-out', 'clamp=08:00+120', '--why']],
  },
  {
    number: 15,
    words: 'What does sharing the checker with another line cost?',
    ask: [['compare', '--away', 'wren=none', '--why']],
  },
  {
    number: 16,
    words: 'Pieces come back from finishing?',
    ask: [['compare', '--returned', 'sand:3@09:00', '--why']],
  },
  {
    number: 17,
    words: 'Rework doubles: which post pays?',
    ask: [['compare', '--rework', 'sand=16,clean=6', '--why']],
  },
  {
    number: 18,
    words: 'A batch is held?',
    ask: [['compare', '--hold', 'bent@sand=10:00', '--why']],
  },
  {
    number: 19,
    words: 'A trainee at a post: what does it cost now, and when does it break even?',
    ask: [
      ['compare', '--trainee', 'sand+bench=16', '--trainee', 'sand/3+bench=16', '--why'],
      ['learn', '--step', 'sand', '--pay', '16', '--with-bench'],
    ],
  },
  {
    number: 20,
    words: 'A cold shop: what does every 5 more minutes of cure cost?',
    ask: [['compare', '--cure', '+5', '--cure', '+10', '--cure', '+15', '--why']],
  },
  { number: 21, words: 'Whom to train next, at what?', ask: [['crew', '--cross-training', '3']] },
  {
    number: 22,
    words: 'Hire, overtime, or equipment?',
    ask: [['compare', '--person', 'fit+bench', '--overtime', '45', '--clamp', '3', '--why']],
  },
  {
    number: 23,
    words: 'Why did we miss yesterday?',
    ask: [['log', 'why', '--date', '2027-03-05', '--good', '15', '--out', 'kofi', '--late-parts', '30']],
  },
];

/**
 * A question's command as it is typed, in any shell: no braces, no single quotes, no signs that one of them
 * reads as its own; a list in double quotes, since some take a comma for the end of a word.
 */
export const typedCommand = (ask: string[]): string =>
  ['npx', 'clampwright', ...ask.map((word) => (/^[\w./:=@+-]+$/.test(word) ? word : `"${word}"`))].join(' ');
