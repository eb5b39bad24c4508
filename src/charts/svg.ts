/**
 * SVG as text, without a DOM. Whatever is given as text is escaped; only what `element` made is taken as
 * markup.
 */
import { LIGHT, type Palette } from './palette.ts';

export interface Markup {
  readonly svg: string;
}
export type Child = Markup | string | number | null | false | Child[];
export type Attributes = Record<string, string | number | null | undefined>;

/** Not allowed in XML at all, so that no name from a file can make a picture unreadable. */
const FORBIDDEN =
  // eslint-disable-next-line no-control-regex
  /[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]|[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g;
const ENTITIES: Record<string, string> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** Text made safe for element content and for attribute values. */
export const escaped = (text: string): string =>
  text.replace(FORBIDDEN, '').replace(/[&<>"']/g, (sign) => ENTITIES[sign]!);

/** A number as written in a picture: to a tenth of a pixel. */
export const place = (value: number): string => String(Math.round(value * 10) / 10 + 0);

/** One element. Attributes that are null or undefined are left out; numbers are rounded to a tenth. */
export function element(name: string, attributes: Attributes, ...children: Child[]): Markup {
  let text = `<${name}`;
  for (const [key, value] of Object.entries(attributes)) {
    if (value === null || value === undefined) continue;
    text += ` ${key}="${typeof value === 'number' ? place(value) : escaped(value)}"`;
  }
  const inside = children.map(render).join('');
  return { svg: inside === '' ? `${text}/>` : `${text}>${inside}</${name}>` };
}

function render(child: Child): string {
  if (child === null || child === false) return '';
  if (Array.isArray(child)) return child.map(render).join('');
  if (typeof child === 'object') return child.svg;
  return escaped(String(child));
}

export type Ink = keyof Palette;

/**
 * Fill and stroke by the palette's names: attributes with the colours on paper, for a picture that stands
 * alone, and classes by which a page puts its own theme in their place.
 */
export function inked(inks: { fill?: Ink | 'none'; stroke?: Ink }, ...classes: string[]): Attributes {
  const names = [...classes];
  if (inks.fill !== undefined && inks.fill !== 'none') names.push(`fill-${inks.fill}`);
  if (inks.stroke !== undefined) names.push(`stroke-${inks.stroke}`);
  return {
    class: names.length === 0 ? undefined : names.join(' '),
    fill: inks.fill === undefined ? undefined : inks.fill === 'none' ? 'none' : LIGHT[inks.fill],
    stroke: inks.stroke === undefined ? undefined : LIGHT[inks.stroke],
  };
}
