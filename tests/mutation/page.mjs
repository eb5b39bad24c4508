// The page of what was seen: figures by room, survivors one by one.
import { readFileSync } from 'node:fs';

const { version } = JSON.parse(readFileSync(new URL('../../package.json', import.meta.url), 'utf8'));
const code = (text) => `\`${text.replaceAll('`', "'").replaceAll('|', '\\|')}\``;

/** @param seen by room. @param judged by "path: after": what looking at a survivor came to. */
export function resultsPage(seen, judged) {
  const rows = Object.entries(seen).map(([name, one]) => {
    const same = one.survivors.filter((each) => judgementOf(judged, each)?.kind === 'same').length;
    const share = (value, of) => `${Math.round((1000 * value) / of) / 10} %`;
    return `| ${name} | ${one.of.toLocaleString('en-US')} | ${one.tried} | ${one.killed} | ${one.time} | ${share(one.killed, one.tried)} | ${same} | ${share(one.killed, one.tried - same)} |`;
  });
  const lists = Object.entries(seen).flatMap(([name, { survivors }]) => [
    `## Survivors: ${name}`,
    '',
    ...(survivors.length === 0
      ? ['None.']
      : survivors.flatMap((one) => survivor(one, judgementOf(judged, one)))),
    '',
  ]);
  return [
    '# Do the tests bite?',
    '',
    `Made by \`npm run mutate -- --area <room> --count <mutants>\`, clampwright ${version}. A mutant is the source with one operator,`,
    'comparison, constant or statement changed, drawn at random (seed in the command) from all there are; it is killed where a test',
    'of the room fails, or no longer ends in four times the processor time it takes. "Same" is a survivor that, looked at, changes',
    'nothing a user could see; the last column leaves these out.',
    '',
    '| room | mutants there are | tried | killed | by time | killed | same | killed of those that differ |',
    '| --- | ---: | ---: | ---: | ---: | ---: | ---: | ---: |',
    ...rows,
    '',
    ...lists,
  ].join('\n');
}

const judgementOf = (judged, { path, before, after }) =>
  judged.find((one) => one.path === path && one.before === before && one.after === after) ?? null;

const survivor = ({ path, line, before, after }, judgement) => [
  `- ${path}, line ${line}: ${code(before)} became ${code(after)}. ${judgement === null ? 'Not judged yet.' : judgement.why}`,
];

if (process.argv[2] === '--again') {
  const read = (name) => JSON.parse(readFileSync(new URL(name, import.meta.url), 'utf8'));
  const { writeFileSync } = await import('node:fs');
  writeFileSync(
    new URL('../results/mutation.md', import.meta.url),
    resultsPage(read('seen.json'), read('judged.json')),
  );
}
