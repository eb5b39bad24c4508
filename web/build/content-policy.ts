import { createHash } from 'node:crypto';
import type { Plugin } from 'vite';

const SERVED = [
  "default-src 'none'",
  // The core is compiled from WebAssembly; without the word it runs as plain JavaScript, slower.
  "script-src 'self' 'wasm-unsafe-eval'",
  "style-src 'self'",
  "img-src 'self' data: blob:",
  "font-src 'self' data:",
  "worker-src 'self' blob:",
  "connect-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
];

/** Stands where the policy goes until everything is inlined and can be hashed. */
const PLACE = '<!-- content security policy -->';
const META = /<meta http-equiv="Content-Security-Policy"[^>]*>/;
const meta = (policy: string[]): string =>
  `<meta http-equiv="Content-Security-Policy" content="${policy.join('; ')}">`;
const sha256 = (text: string): string => `'sha256-${createHash('sha256').update(text).digest('base64')}'`;

/**
 * The content security policy of the page: nothing from any other address, nothing inline. The single file,
 * being all inline, names its own scripts and styles by their hashes instead. The development server, which
 * injects styles and talks to the page, is let off.
 */
export function contentPolicy({ single }: { single: boolean }): Plugin[] {
  return [
    {
      name: 'clampwright:content-policy',
      transformIndexHtml(html, context) {
        if (context.server) return html.replace(META, '');
        return html.replace(META, single ? PLACE : meta(SERVED));
      },
    },
    {
      name: 'clampwright:content-policy-single',
      apply: 'build',
      enforce: 'post',
      generateBundle: {
        order: 'post',
        handler(_options, bundle) {
          if (!single) return;
          for (const file of Object.values(bundle)) {
            if (file.type !== 'asset' || !file.fileName.endsWith('.html')) continue;
            const html = String(file.source);
            if (!html.includes(PLACE))
              throw new Error(`${file.fileName}: no place for the content security policy`);
            // A function, so that a dollar sign in a hash or a script is never read as a pattern.
            file.source = html.replace(PLACE, () => meta(hashed(html)));
          }
        },
      },
    },
  ];
}

function hashed(html: string): string[] {
  const contents = (text: string, tag: string): string =>
    [...text.matchAll(new RegExp(`<${tag}[^>]*>([\\s\\S]*?)</${tag}>`, 'g'))]
      .map((found) => sha256(found[1]!))
      .join(' ');
  // Scripts speak of style elements too: only what is left without them is the page's own.
  const withoutScripts = html.replace(/<script[^>]*>[\s\S]*?<\/script>/g, '');
  return [
    "default-src 'none'",
    `script-src ${contents(html, 'script')} 'wasm-unsafe-eval'`,
    `style-src ${contents(withoutScripts, 'style')}`,
    'img-src data: blob:',
    'font-src data:',
    'worker-src blob: data:',
    "base-uri 'none'",
    "form-action 'none'",
  ];
}
