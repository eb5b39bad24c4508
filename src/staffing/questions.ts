/**
 * The questions a lead asks of a cell, the most frequent and costly first, and how each is asked: the words
 * that follow `clampwright` on the command line, for the demo shop. With a file of one's own the ids in them
 * change, nothing else. Each is run by a test. What is not answered in full says what is missing.
 */
export interface ShopQuestion {
  number: number;
  words: string;
  /** One command a way of asking it. */
  ask: string[][];
  /** What is not answered; left out where everything is. */
  missing?: string;
}

const patch = (value: unknown): string => JSON.stringify(value);
const overtime = (cap: number): string[] => [
  '--change',
  patch({ shift: { overtime: { until: 'target', cap } } }),
];
const lastGlue = (lastStart: string): string[] => ['--change', patch({ steps: { glue: { lastStart } } })];
const bastianAt = (from: string): string[] => [
  '--change',
  patch({ people: { bastian: { changes: [{ from, covers: ['clean', 'unclamp', 'stage'] }] } } }),
];
const cure = (time: number): string[] => ['--change', patch({ steps: { cure: { time } } })];
const DELIVERIES = [
  { at: '06:00', units: 8 },
  { at: '08:30', units: 8 },
  { at: '11:00', units: 8 },
  { at: '13:00', units: 4 },
];
const trainee = (level: number): string[] => [
  '--change',
  patch({
    people: { nia: { name: 'Nia', pay: 16, covers: ['sand'], skills: { sand: level } } },
    steps: { sand: { benches: 3 } },
  }),
];

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
      ['compare', ...overtime(15), ...overtime(30), ...overtime(45), ...overtime(60), '--why'],
    ],
  },
  {
    number: 5,
    words: 'When is the last glue-up, tonight against tomorrow’s start?',
    ask: [
      [
        'compare',
        '--with',
        patch({ nextShifts: [{ name: 'tomorrow' }] }),
        ...lastGlue('12:30'),
        ...lastGlue('13:30'),
        '--why',
      ],
    ],
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
    ask: [['compare', '--options', 'fitter-unclamps', '--why']],
  },
  {
    number: 9,
    words: 'Move somebody in mid-shift, and when?',
    ask: [
      ['compare', ...bastianAt('10:30'), ...bastianAt('12:40'), '--why'],
      ['now', '--at', '10:40', '--good', '8', '--waiting', 'fit=3,sand=2', '--curing', '12'],
    ],
  },
  {
    number: 10,
    words: 'The parts come an hour late?',
    ask: [['compare', '--options', 'late-arrivals', '--why']],
  },
  {
    number: 11,
    words: 'More of the longer product today?',
    ask: [
      ['compare', '--change', patch({ products: { straight: { share: 40 }, bent: { share: 60 } } }), '--why'],
    ],
  },
  {
    number: 12,
    words: 'A rush order: when is it out, and what does it push back?',
    ask: [
      [
        'compare',
        '--change',
        patch({
          intake: {
            arrivals: [...DELIVERIES, { at: '09:00', units: 2, product: 'bent', rush: true, name: 'rush' }],
          },
        }),
        '--why',
      ],
    ],
    missing:
      'When the rush order itself is out is not reported over many shifts, only in the record of one (`clampwright record`).',
  },
  { number: 13, words: 'Stagger the breaks?', ask: [['compare', '--options', 'staggered-breaks', '--why']] },
  {
    number: 14,
    words: 'A clamp set breaks for two hours?',
    ask: [
      [
        'compare',
        '--change',
        patch({ gear: { clamp: { out: [{ from: '08:00', minutes: 120 }] } } }),
        '--why',
      ],
    ],
  },
  {
    number: 15,
    words: 'What does sharing the checker with another line cost?',
    ask: [['compare', '--change', patch({ people: { wren: { away: [] } } }), '--why']],
  },
  {
    number: 16,
    words: 'Pieces come back from finishing?',
    ask: [
      [
        'compare',
        '--change',
        patch({
          products: { returned: { share: 0, enters: 'sand' } },
          intake: { arrivals: [...DELIVERIES, { at: '09:00', units: 3, product: 'returned' }] },
        }),
        '--why',
      ],
    ],
    missing: 'Returned pieces count as good units when they are out again: take them off the figure.',
  },
  {
    number: 17,
    words: 'Rework doubles: which post pays?',
    ask: [
      [
        'compare',
        '--change',
        patch({
          steps: {
            check: {
              rework: [
                { to: 'sand', percent: 16, cause: 'scratch' },
                { to: 'clean', percent: 6, cause: 'glue' },
              ],
            },
          },
        }),
        '--why',
      ],
    ],
  },
  {
    number: 18,
    words: 'A batch is held?',
    ask: [
      [
        'compare',
        '--change',
        patch({ holds: [{ before: 'sand', until: '10:00', product: 'bent', whose: 'the lead' }] }),
        '--why',
      ],
    ],
  },
  {
    number: 19,
    words: 'A trainee at a post: what does it cost now, and when does it break even?',
    ask: [['compare', ...trainee(1), ...trainee(3), '--why']],
    missing:
      'How fast somebody learns is not modeled: the first line is now, the second once trained; the days between are yours to judge.',
  },
  {
    number: 20,
    words: 'A cold shop: what does every 5 more minutes of cure cost?',
    ask: [['compare', ...cure(35), ...cure(40), ...cure(45), '--why']],
  },
  { number: 21, words: 'Whom to train next, at what?', ask: [['crew', '--cross-training', '3']] },
  {
    number: 22,
    words: 'Hire, overtime, or equipment?',
    ask: [['compare', '--options', 'second-fitter,overtime-45,third-set', '--why']],
  },
  {
    number: 23,
    words: 'Why did we miss yesterday?',
    ask: [['log', 'why', '--date', '2027-03-05', '--good', '15', '--out', 'kofi', '--kits-late', '30']],
  },
];

/** A question's command as it is typed in a shell. */
export const typedCommand = (ask: string[]): string =>
  [
    'npx',
    'clampwright',
    ...ask.map((word) => (/^[\w./:=,@%+-]+$/.test(word) ? word : `'${word.replaceAll("'", `'\\''`)}'`)),
  ].join(' ');
