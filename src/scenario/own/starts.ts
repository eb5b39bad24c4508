/**
 * What a cell of one's own may begin with: the usual work of four kinds of shop. The minutes are guesses to
 * begin with (invented, no source), and the file says so until somebody puts in their own.
 */
export interface StepAsked {
  name: string;
  /** Usual minutes of a piece; of a wait, how long it waits. */
  minutes: number;
  /** Nobody is needed: a cure, a rest. */
  wait: boolean;
  /** Still the guess it began with. */
  guessed: boolean;
}

export interface Start {
  id: string;
  /** "chairs", "doors". */
  name: string;
  steps: StepAsked[];
}

const hands = (name: string, minutes: number): StepAsked => ({ name, minutes, wait: false, guessed: true });
const wait = (name: string, minutes: number): StepAsked => ({ name, minutes, wait: true, guessed: true });

export const STARTS: readonly Start[] = [
  {
    id: 'chairs',
    name: 'chairs and tables',
    steps: [
      hands('fit', 15),
      hands('glue up', 9),
      wait('cure', 30),
      hands('unclamp', 5),
      hands('sand', 20),
      hands('check', 5),
    ],
  },
  {
    id: 'frames',
    name: 'frames',
    steps: [
      hands('cut miters', 6),
      hands('glue up', 5),
      wait('cure', 20),
      hands('unclamp', 3),
      hands('sand', 9),
      hands('check', 3),
    ],
  },
  {
    id: 'doors',
    name: 'doors',
    steps: [
      hands('dry fit', 14),
      hands('glue up', 12),
      wait('cure', 45),
      hands('unclamp', 6),
      hands('plane flush', 12),
      hands('sand', 18),
      hands('check', 6),
    ],
  },
  {
    id: 'stairs',
    name: 'stair parts',
    steps: [
      hands('fit', 10),
      hands('glue up', 8),
      wait('cure', 40),
      hands('unclamp', 4),
      hands('shape', 12),
      hands('sand', 14),
      hands('check', 4),
    ],
  },
];

export const start = (id: string): Start => STARTS.find((one) => one.id === id) ?? STARTS[0]!;
