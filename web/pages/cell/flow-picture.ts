/**
 * One piece's way through the cell, to scale of time: each step is a bench as wide as its minutes, on a line
 * of its own, where the one before it ends; slots of a rack stand before it; a clamp set is drawn as the jaw
 * that holds the piece from its glue-up to the end of unclamping.
 */
import { hatchOf, picture, rule, SIDE, type Size, type Table } from '../../../src/charts/frame.ts';
import type { Meaning } from '../../../src/charts/index.ts';
import { element, inked, type Child, type Markup } from '../../../src/charts/svg.ts';
import { cut, lines, SMALL, widthOf, words, wrapped } from '../../../src/charts/words.ts';
import { counted, inSentence, listed } from '../../../src/words/words.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import { timeInWords } from '../../parts/time-words.ts';
import { benchesOf, isWait, meaningOf, mixMinutes, standersAt } from './cell-data.ts';
import { backWords, intakeWords, minutesWords, stepWords } from './words.ts';

/** A part of the picture that can be touched. */
export interface Target {
  kind: 'steps' | 'gear' | 'intake' | 'outRack';
  id: string;
  words: string;
  top: number;
  height: number;
}

const ROW = 52;
const TALL_ROW = 72;
const JAW = 44;
const BLOCK = 28;
const RACK = 54;

interface Frame {
  wide: boolean;
  left: number;
  right: number;
  x: (minutes: number) => number;
  total: number;
}

interface Row {
  id: string;
  top: number;
  height: number;
  from: number;
  minutes: number;
}

interface Jaw {
  gear: string;
  from: Row;
  until: Row;
  top: number;
}

interface Plan {
  rows: Row[];
  jaws: Jaw[];
  top: number;
  bottom: number;
  frame: Frame;
}

function planOf(scenario: Scenario, width: number): Plan {
  const wide = width >= 620;
  const ids = Object.keys(scenario.steps);
  const ordered = [
    ...ids.filter((id) => scenario.steps[id]!.aside !== true),
    ...ids.filter((id) => scenario.steps[id]!.aside === true),
  ];
  const main = ordered.filter((id) => scenario.steps[id]!.aside !== true);
  const longest = main.reduce((sum, id) => sum + mixMinutes(scenario, id), 0);
  const left = wide ? Math.min(170, width * 0.22) : 0;
  const right = wide ? Math.min(232, width * 0.29) : 0;
  const total = Math.max(1, longest, ...ordered.map((id) => mixMinutes(scenario, id)));
  const room = width - 2 * SIDE - left - right - RACK - 64;
  const frame: Frame = {
    wide,
    left,
    right,
    total,
    x: (minutes) => SIDE + left + RACK + (minutes / total) * room,
  };
  let at = 0;
  let y = 44;
  const top = y;
  const rows: Row[] = [];
  const jaws: Jaw[] = [];
  for (const id of ordered) {
    const minutes = mixMinutes(scenario, id);
    const aside = scenario.steps[id]!.aside === true;
    const row: Row = { id, top: y, height: wide ? ROW : TALL_ROW, from: aside ? 0 : at, minutes };
    rows.push(row);
    y += row.height;
    if (!aside) at += minutes;
    for (const from of rows) {
      for (const take of scenario.steps[from.id]!.takes ?? []) {
        if (take.until !== id) continue;
        jaws.push({ gear: take.gear, from, until: row, top: y });
        y += JAW;
      }
    }
  }
  return { rows, jaws, top, bottom: y, frame };
}

/** What can be touched, from the top of the picture, in px. */
export function flowTargets(scenario: Scenario, width: number): Target[] {
  const { rows, jaws, bottom } = planOf(scenario, width);
  const at = [
    ...rows.map((row): Target => ({
      kind: 'steps',
      id: row.id,
      top: row.top,
      height: row.height,
      words: stepWords(
        scenario,
        row.id,
        standersAt(scenario, row.id).map(({ name }) => name),
      ),
    })),
    ...jaws.map((jaw): Target => ({
      kind: 'gear',
      id: jaw.gear,
      top: jaw.top,
      height: JAW,
      words: jawWords(scenario, jaw),
    })),
  ].sort((a, b) => a.top - b.top);
  return [
    { kind: 'intake', id: '', top: 0, height: 44, words: `Comes in: ${intakeWords(scenario.intake)}` },
    ...at,
    { kind: 'outRack', id: '', top: bottom + 26, height: 44, words: `Leaves: ${leavesWords(scenario)}` },
  ];
}

const leavesWords = ({ outRack, shift }: Scenario): string => {
  const due =
    typeof shift?.target === 'number'
      ? `${counted(shift.target, 'good piece')} due`
      : 'as many good pieces as it makes';
  return outRack === undefined ? `${due}, each as it is done` : `${due}, on racks of ${outRack.size}`;
};

function jawWords(scenario: Scenario, { gear, from, until }: Jaw): string {
  const one = scenario.gear?.[gear];
  const held = until.from + until.minutes - from.from;
  return `${counted(one?.count ?? 0, inSentence(one?.name ?? gear))}: ${minutesWords(held)} on each piece, and its wait for hands`;
}

export function flowPicture(scenario: Scenario, size: Size): string {
  const plan = planOf(scenario, size.width);
  const { rows, jaws, top, bottom, frame } = plan;
  return picture(
    size,
    {
      title: 'The way of one piece through the cell',
      description: rows
        .map(({ id }) =>
          stepWords(
            scenario,
            id,
            standersAt(scenario, id).map(({ name }) => name),
          ),
        )
        .join('. '),
      foot: {
        unit: 'minutes of one piece, the mix of products and the allowance in, if it never waited',
        note: 'Small squares are the slots of a rack; two benches are two bars.',
      },
      height: bottom + 66,
      hatched: true,
    },
    intakeRow(scenario, plan, size.width),
    minuteLines(frame, top, bottom),
    rows.map((row) => stepRow(scenario, row, frame, size)),
    jaws.map((jaw) => jawOf(scenario, jaw, frame, size.width, jaws.length > 1)),
    leavesRow(scenario, plan, size.width),
  );
}

function intakeRow(scenario: Scenario, { frame }: Plan, width: number): Markup[] {
  const text = intakeWords(scenario.intake);
  return frame.wide
    ? [
        words(SIDE, 24, 'comes in', { weight: 600 }),
        words(SIDE + frame.left, 24, cut(text, width - frame.left - 8), { ink: 'muted' }),
      ]
    : [
        words(SIDE, 16, 'comes in', { weight: 600 }),
        words(SIDE, 34, cut(text, width - 8, SMALL), { ink: 'muted', size: SMALL }),
      ];
}

function leavesRow(scenario: Scenario, { frame, bottom }: Plan, width: number): Markup[] {
  const y = bottom + 54;
  const from = frame.wide ? SIDE + frame.left : SIDE + 66;
  return [
    words(SIDE, y, 'leaves', { weight: 600 }),
    words(from, y, cut(leavesWords(scenario), width - from - 4, frame.wide ? undefined : SMALL), {
      ink: 'muted',
      ...(frame.wide ? {} : { size: SMALL }),
    }),
  ];
}

/** Every so many minutes, at most about six lines. */
function minuteLines({ x, total, wide }: Frame, top: number, bottom: number): Child[] {
  const step = [1, 2, 5, 10, 15, 30, 60, 120, 240, 480].find((one) => total / one <= (wide ? 6 : 4)) ?? 960;
  const marks = Array.from({ length: Math.floor(total / step) + 1 }, (_, i) => i * step);
  return marks.map((minutes) => [
    rule(x(minutes), top, x(minutes), bottom + 4),
    words(x(minutes), bottom + 20, minutes === 0 ? '0 min' : String(minutes), {
      size: SMALL,
      ink: 'muted',
      anchor: 'middle',
    }),
  ]);
}

function stepRow(scenario: Scenario, row: Row, frame: Frame, { width, id }: Size): Child[] {
  const step = scenario.steps[row.id]!;
  const name = step.name ?? row.id;
  const { wide, x } = frame;
  const y = row.top + (wide ? 11 : 30);
  const wait = isWait(step);
  const end = x(row.from + row.minutes);
  const label = `${minutesWords(row.minutes)}${step.people === 2 ? ', two people' : ''}`;
  const room = width - frame.right - end - 10;
  const inside = room < widthOf(label, SMALL);
  const minutes = inside
    ? words(
        x(row.from) - 8 - (typeof step.rack === 'number' ? rackWidth(step.rack) + 6 : 36),
        y + BLOCK / 2 + 5,
        label,
        { size: SMALL, anchor: 'end', halo: true },
      )
    : words(end + 6, y + BLOCK / 2 + 5, label, { size: SMALL, halo: true });
  const who = standersAt(scenario, row.id).map((one) => one.name);
  const standing = wait ? 'needs no hands' : who.length === 0 ? 'nobody stands here' : listed(who);
  const back = backWords(scenario, step);
  const beside = wide
    ? [
        words(width - frame.right, y + (back === '' ? 19 : 12), cut(standing, frame.right), {
          size: SMALL + 1,
          ink: !wait && who.length === 0 ? 'waiting' : wait ? 'muted' : 'ink',
        }),
        back !== '' &&
          words(width - frame.right, y + 29, cut(back, frame.right, SMALL), { size: SMALL, ink: 'muted' }),
      ]
    : [
        words(width - SIDE, row.top + 20, cut(standing, width * 0.45, SMALL), {
          size: SMALL,
          anchor: 'end',
          ink: 'muted',
        }),
      ];
  return [
    rule(SIDE, row.top, width - SIDE, row.top),
    wide
      ? nameOf(step.aside === true ? `(${name})` : name, y, frame.left - 8)
      : words(SIDE, row.top + 20, cut(name, width * 0.5), { weight: 600 }),
    wait ? null : rackOf(step.rack, x(row.from), y),
    bars(meaningOf(scenario, row.id), wait ? 1 : benchesOf(step), x(row.from), end, y, id),
    minutes,
    beside,
  ];
}

/** On two lines where one has no room for it. */
function nameOf(name: string, y: number, room: number): Markup[] {
  if (wrapped(name, room).length < 2) return [words(SIDE, y + 19, cut(name, room), { weight: 600 })];
  const [first, ...rest] = wrapped(name, room, SMALL + 1);
  return lines(SIDE, y + 11, [first!, cut(rest.join(' '), room, SMALL + 1)], {
    size: SMALL + 1,
    weight: 600,
  });
}

/** One bar a bench, up to four; more are one bar and a number. */
function bars(meaning: Meaning, benches: number, from: number, to: number, y: number, id: string): Child[] {
  const shown = benches <= 4 ? Math.max(1, benches) : 1;
  const high = (BLOCK - (shown - 1) * 3) / shown;
  const wide = Math.max(3, to - from);
  const each = Array.from({ length: shown }, (_, i) =>
    element('rect', {
      x: from,
      y: y + i * (high + 3),
      width: wide,
      height: high,
      fill: hatchOf(id, meaning),
    }),
  );
  return benches > 4
    ? [
        ...each,
        words(from + wide / 2, y + BLOCK / 2 + 5, `× ${benches}`, {
          size: SMALL,
          anchor: 'middle',
          halo: true,
        }),
      ]
    : each;
}

const MOST_SLOTS = 10;
const rackWidth = (slots: number): number => (slots > MOST_SLOTS ? 44 : Math.ceil(slots / 2) * 8);

/**
 * The slots before a bench; a dotted floor line where nothing limits them, nothing where pieces are handed
 * over.
 */
function rackOf(rack: number | null | undefined, x: number, y: number): Child {
  const floor = y + BLOCK;
  if (typeof rack !== 'number') return rule(x - 34, floor - 1, x - 4, floor - 1, 'muted', 2, '1 5');
  const shown = Math.min(MOST_SLOTS, rack);
  const columns = Math.ceil(shown / 2);
  const squares = Array.from({ length: shown }, (_, i) =>
    element('rect', {
      x: x - 4 - 8 * (columns - Math.floor(i / 2)),
      y: floor - 8 * (1 + (i % 2)),
      width: 6,
      height: 6,
      ...inked({ fill: 'none', stroke: 'muted' }),
      'stroke-width': 1.2,
    }),
  );
  return rack > MOST_SLOTS
    ? [...squares, words(x - 6, y + 8, `${rack}`, { size: SMALL, anchor: 'end', ink: 'muted' })]
    : squares;
}

function jawOf(scenario: Scenario, jaw: Jaw, { x, wide }: Frame, width: number, several: boolean): Child[] {
  const [from, to] = [x(jaw.from.from), x(jaw.until.from + jaw.until.minutes)];
  const inset = wide ? 11 : 30;
  const y = jaw.top + 6;
  const [start, end] = [jaw.from.top + inset + BLOCK + 3, jaw.until.top + inset + BLOCK + 3];
  const text = jawWords(scenario, jaw);
  const wanted = widthOf(text, SMALL);
  // Where several things are tied up their lines cross: the words then stand beside them, where there is
  // room.
  const beside = to + 10 + wanted <= width - SIDE ? to + 10 : from - 10 - wanted;
  const at = several && beside >= SIDE ? beside : Math.max(SIDE, Math.min(from, width - SIDE - wanted));
  return [
    element('path', {
      d: `M${from + 7} ${start}H${from + 1}V${y}H${to - 1}V${end}H${to - 7}`,
      ...inked({ fill: 'none', stroke: 'ink' }),
      'stroke-width': 2,
    }),
    words(at, y + 22, cut(text, width - at - SIDE, SMALL), { size: SMALL, weight: 600, halo: true }),
  ];
}

/** The same in figures. */
export function flowTable(scenario: Scenario): Table {
  return {
    head: ['Step', 'Mean, min', 'Time', 'Benches', 'Rack before it', 'Who stands here', 'Goes back'],
    rows: Object.entries(scenario.steps).map(([id, step]) => [
      step.name ?? id,
      String(Math.round(mixMinutes(scenario, id) * 10) / 10),
      timeInWords(step.time),
      isWait(step) ? 'none needed' : String(benchesOf(step)),
      isWait(step) ? '' : typeof step.rack === 'number' ? String(step.rack) : 'no limit',
      standersAt(scenario, id)
        .map(({ name }) => name)
        .join(', '),
      backWords(scenario, step),
    ]),
  };
}
