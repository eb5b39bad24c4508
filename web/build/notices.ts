import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import type { Plugin } from 'vite';

/** Beside the build; at the end of the page where all is one file. */
const FILE = 'third-party-notices.txt';
const LICENSE = /^(licen[cs]e|copying|notice|ofl)([.-].*)?$/i;

interface Package {
  name?: string;
  version?: string;
  license?: string;
  author?: string | { name?: string };
}

/**
 * The licenses of whatever is bundled, collected from the packages themselves at build time. Workers are
 * built apart and typefaces are no modules: `listener` hears of the first, file names tell of the second.
 * `always` names packages whose files leave no trace (typefaces inside of a style).
 * A bundled package without any license ends the build.
 */
export function notices(always: readonly string[] = []): {
  plugins(how?: { inPage?: boolean }): Plugin[];
  listener(): Plugin;
} {
  const folders = new Set(always.map((name) => resolve('node_modules', name)));
  const listener = (): Plugin => {
    let root = '';
    return {
      name: 'clampwright:notices-heard',
      apply: 'build',
      configResolved: (config) => void (root = config.root),
      generateBundle: {
        order: 'pre',
        handler(_options, bundle) {
          for (const file of Object.values(bundle)) {
            const from = file.type === 'chunk' ? file.moduleIds : file.originalFileNames;
            for (const id of from) {
              const folder = folderOf(root, id);
              if (folder !== null) folders.add(folder);
            }
          }
        },
      },
    };
  };
  const beside: Plugin = {
    name: 'clampwright:notices',
    apply: 'build',
    generateBundle: {
      order: 'pre',
      handler() {
        this.emitFile({ type: 'asset', fileName: FILE, source: noticesOf([...folders]) });
      },
    },
  };
  // The page is whole only when everything else is in it.
  const inside: Plugin = {
    name: 'clampwright:notices-in-page',
    apply: 'build',
    enforce: 'post',
    generateBundle: {
      order: 'post',
      handler(_options, bundle) {
        const text = noticesOf([...folders]).replaceAll('--', '- -');
        for (const file of Object.values(bundle))
          if (file.type === 'asset' && file.fileName.endsWith('.html'))
            file.source = `${String(file.source)}<!--\n${text}-->\n`;
      },
    },
  };
  return { listener, plugins: ({ inPage = false } = {}) => [listener(), inPage ? inside : beside] };
}

/** The folder of the package a module is in: the last one named after "node_modules". */
function folderOf(root: string, id: string): string | null {
  const path = resolve(root, id.replace(/^\0/, '').replace(/[?#].*$/, '')).replaceAll('\\', '/');
  const folder = /^(.*\/node_modules\/(?:@[^/]+\/)?[^/]+)\//.exec(path)?.[1] ?? null;
  return folder !== null && existsSync(join(folder, 'package.json')) ? folder : null;
}

function noticesOf(folders: string[]): string {
  const all = folders.map(noticeOf).sort((a, b) => (a.name < b.name ? -1 : a.name > b.name ? 1 : 0));
  const parts = [...new Map(all.map((one) => [one.name, one.text])).values()];
  const line = `\n${'-'.repeat(78).replaceAll('-', '=')}\n\n`;
  return `This program is built with the following works of others, under their licenses.\n${line}${parts.join(line)}`;
}

function noticeOf(folder: string): { name: string; text: string } {
  const about = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8')) as Package;
  const files = readdirSync(folder).filter((file) => LICENSE.test(file));
  const name = `${about.name ?? folder} ${about.version ?? ''}`.trim();
  if (files.length === 0 && about.license === undefined) throw new Error(`${name} comes without a license`);
  const author = typeof about.author === 'string' ? about.author : about.author?.name;
  const texts = files.map((file) => readFileSync(join(folder, file), 'utf8').trim());
  const head = [name, ...(about.license === undefined ? [] : [`License: ${about.license}`])];
  // Some packages name their license and give no text of it.
  if (texts.length === 0 && author !== undefined) head.push(`Copyright: ${author}`);
  return { name, text: `${[head.join('\n'), ...texts].join('\n\n')}\n` };
}
