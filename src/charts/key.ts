/** A line of swatches with their words, for pictures whose blocks are too small to write on. */
import { hatchOf, SIDE, type Size } from './frame.ts';
import type { Meaning } from './palette.ts';
import { element, inked, type Markup } from './svg.ts';
import { SMALL, widthOf, words } from './words.ts';

export function key(
  entries: { meaning: Meaning; word: string }[],
  { width, id }: Size,
): { marks: Markup[]; height: number } {
  const marks: Markup[] = [];
  let [x, y] = [SIDE, 2];
  for (const { meaning, word } of entries) {
    const wide = 24 + widthOf(word, SMALL) + 20;
    if (x > SIDE && x + wide > width) [x, y] = [SIDE, y + 22];
    marks.push(
      element('rect', {
        x,
        y,
        width: 18,
        height: 14,
        fill: hatchOf(id, meaning),
        ...(meaning === 'free' || meaning === 'off' ? { ...inkedEdge, 'stroke-width': 0.8 } : {}),
      }),
      words(x + 24, y + 12, word, {
        size: SMALL,
        ink: meaning === 'waiting' ? 'waiting' : 'muted',
        weight: meaning === 'waiting' ? 600 : undefined,
      }),
    );
    x += wide;
  }
  return { marks, height: entries.length === 0 ? 0 : y + 20 };
}

const { class: edgeClass, stroke } = inked({ stroke: 'muted' });
const inkedEdge = { class: edgeClass, stroke };
