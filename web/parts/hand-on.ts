/** A picture and its figures for other programs: into a spreadsheet, a letter, a slide. */
import type { Table } from '../../src/charts/index.ts';
import { plainName, saveFile } from '../store/files.ts';
import { facesOf, PICTURE_FACE } from '../../src/document/faces.ts';
import { say } from './notice.ts';
import { ownFaces } from './typefaces.ts';

/** The table as a spreadsheet takes it from the clipboard: a row a line, tabs between. */
export const asCells = ({ head, rows }: Table): string =>
  [head, ...rows].map((row) => row.map((cell) => cell.replace(/\s+/g, ' ').trim()).join('\t')).join('\n');

export async function copyTable(table: Table): Promise<void> {
  try {
    await navigator.clipboard.writeText(asCells(table));
    say('The figures are copied: paste them into a spreadsheet.');
  } catch {
    say(
      'This browser does not let a page copy. Open the table, mark it with the pointer, and copy it yourself.',
      {
        kind: 'wrong',
      },
    );
  }
}

/** @param svg as the pictures make it, with the colors of paper. @param name what the file is called. */
export async function savePicture(svg: string, name: string, kind: 'svg' | 'png'): Promise<void> {
  const file = `${plainName(name) || 'picture'}.${kind}`;
  const whole = withGround(withTypeface(svg, facesOf(await ownFaces(), PICTURE_FACE, svg)));
  if (kind === 'svg') return saveFile(file, whole, 'image/svg+xml');
  const png = await drawn(whole);
  if (png === null) say('This browser makes no PNG of it: take the SVG.', { kind: 'wrong' });
  else saveFile(file, png, 'image/png');
}

/** Twice as fine as on a screen, for paper. */
const FINE = 2;

async function drawn(svg: string): Promise<Blob | null> {
  const image = new Image();
  const address = URL.createObjectURL(new Blob([svg], { type: 'image/svg+xml' }));
  try {
    image.src = address;
    await image.decode();
    const canvas = document.createElement('canvas');
    [canvas.width, canvas.height] = [image.naturalWidth * FINE, image.naturalHeight * FINE];
    const context = canvas.getContext('2d');
    if (context === null) return null;
    context.drawImage(image, 0, 0, canvas.width, canvas.height);
    return await new Promise((resolve) => canvas.toBlob(resolve, 'image/png'));
  } catch {
    return null;
  } finally {
    URL.revokeObjectURL(address);
  }
}

/** Of paper: without it a viewer's dark ground would swallow the ink. */
const withGround = (svg: string): string =>
  svg.replace(/(<svg[^>]*>)/, '$1<rect width="100%" height="100%" fill="#fbf8f3"/>');

/** A picture on its own sees none of the page's typefaces: it carries the one it is set in. */
const withTypeface = (svg: string, face: string): string =>
  face === '' ? svg : svg.replace(/(<svg[^>]*>)/, (opening) => `${opening}<style>${face}</style>`);
