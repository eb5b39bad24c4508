/** The page's own typefaces, as they go along with what is saved of it. */
import type { Face } from '../../src/document/faces.ts';

let made: Promise<readonly Face[]> | null = null;

/** None where they cannot be read: what is saved is then set in what its reader has. */
export const ownFaces = (): Promise<readonly Face[]> => (made ??= readFaces().catch(() => []));

const readFaces = (): Promise<Face[]> =>
  Promise.all(
    [...document.styleSheets]
      .flatMap((sheet) => [...sheet.cssRules])
      .filter((rule) => rule instanceof CSSFontFaceRule)
      .map(readFace),
  );

async function readFace({ style, parentStyleSheet }: CSSFontFaceRule): Promise<Face> {
  const source = /url\("?([^")]+)"?\)/.exec(style.getPropertyValue('src'))?.[1];
  if (source === undefined) throw new Error('a typeface without an address');
  const base = parentStyleSheet?.href ?? document.baseURI;
  return {
    family: style.getPropertyValue('font-family').replace(/["']/g, ''),
    weights: style.getPropertyValue('font-weight'),
    range: style.getPropertyValue('unicode-range'),
    data: source.startsWith('data:') ? source : await asData(new URL(source, base).href),
  };
}

async function asData(address: string): Promise<string> {
  const blob = await (await fetch(address)).blob();
  return new Promise((resolve, reject) => {
    const reader = new FileReader();
    reader.onload = () => resolve(String(reader.result).replace(/^data:[^;]*/, 'data:font/woff2'));
    reader.onerror = () => reject(new Error('the typeface could not be read'));
    reader.readAsDataURL(blob);
  });
}
