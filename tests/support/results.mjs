// What a command saw, as a file of its own in tests/results: with `-- --markdown` the lines that are
// printed are kept there too, under a heading that says how and when they were made.
import { existsSync, readFileSync, writeFileSync } from 'node:fs';

const { version } = JSON.parse(readFileSync(new URL('../../package.json', import.meta.url), 'utf8'));

/**
 * A printer of lines that also remembers them.
 * @param {{ name: string, title: string, command: string, keep: boolean }} what the file's name without its
 *   ending, its heading, the command that made it, and whether to write it at all.
 * @param {readonly string[]} [others] headings ("## ...") of sections that other commands wrote; they stay.
 */
export function resultsOf({ name, title, command, keep }, others = []) {
  const lines = [];
  return {
    print: (line) => {
      lines.push(line);
      console.log(line);
    },
    write: () => {
      if (!keep) return;
      const day = new Date().toISOString().slice(0, 10);
      const head = `# ${title}\n\nMade by \`${command}\` on ${day}, clampwright ${version}.\n\n`;
      const file = new URL(`../results/${name}.md`, import.meta.url);
      const before = existsSync(file) ? readFileSync(file, 'utf8').split(/^(?=## )/m) : [];
      const stay = before.filter((part) => others.some((heading) => part.startsWith(`${heading}\n`)));
      const own = `${head}${lines.join('\n').trim()}`;
      writeFileSync(file, [own, ...stay.map((part) => part.trim())].join('\n\n') + '\n');
    },
  };
}
