/** What a shell completes: the commands and their options, from the program's own list of them. */
import type { Command } from 'commander';

export const SHELLS = ['bash', 'zsh', 'fish'] as const;
export type Shell = (typeof SHELLS)[number];

interface Listed {
  /** Words behind the program's name: "log why". */
  path: string;
  says: string;
  options: { long: string; short: string | undefined; says: string; takes: boolean }[];
}

/** Every command and every one within it, hidden ones left out. */
function listedOf(program: Command): Listed[] {
  const within = (command: Command, above: string): Listed[] => {
    const path = `${above} ${command.name()}`.trim();
    const options = command.options
      .filter(({ hidden, long }) => !hidden && long !== undefined)
      .map(({ long, short, description, required }) => ({
        long: long!,
        short,
        says: firstWords(description),
        takes: required,
      }));
    const own = {
      path,
      says: firstWords(command.description()),
      options: [...options, { long: '--help', short: '-h', says: 'this help', takes: false }],
    };
    return [own, ...command.commands.flatMap((one) => within(one, path))];
  };
  return program.commands.flatMap((command) => within(command, ''));
}

const MOST = 60;
/** Plain words, so that no shell reads a sign of its own in them. */
const firstWords = (text: string): string =>
  text
    .split(/[:;(]/)[0]!
    .replace(/[^\p{L}\p{N} ,.%-]/gu, '')
    .trim()
    .slice(0, MOST)
    .trim();

/** The script that a shell is to read. */
export function completionFor(shell: Shell, program: Command): string {
  const all = listedOf(program);
  const name = program.name();
  switch (shell) {
    case 'bash':
      return bash(name, all);
    case 'zsh':
      // Zsh reads bash's own completions.
      return `#compdef ${name}\nautoload -U +X bashcompinit && bashcompinit\n${bash(name, all)}`;
    case 'fish':
      return fish(name, all);
  }
}

const bash = (
  name: string,
  all: Listed[],
): string => `# Completion of ${name}: eval "$(${name} completion bash)"
_${name}() {
  local word="\${COMP_WORDS[COMP_CWORD]}" command="\${COMP_WORDS[1]}" sub="\${COMP_WORDS[1]} \${COMP_WORDS[2]}"
  if [ "$COMP_CWORD" -eq 1 ]; then
    COMPREPLY=( $(compgen -W "${all
      .filter(({ path }) => !path.includes(' '))
      .map(({ path }) => path)
      .join(' ')}" -- "$word") )
    return
  fi
  local options=""
  case "$command" in
${all
  .filter(({ path }) => !path.includes(' '))
  .map(({ path, options }) => {
    const subs = all.filter((one) => one.path.startsWith(`${path} `)).map((one) => one.path.split(' ')[1]!);
    return `    ${path}) options="${[...subs, ...options.map(({ long }) => long)].join(' ')}" ;;`;
  })
  .join('\n')}
  esac
  case "$sub" in
${all
  .filter(({ path }) => path.includes(' '))
  .map(({ path, options }) => `    "${path}") options="${options.map(({ long }) => long).join(' ')}" ;;`)
  .join('\n')}
  esac
  case "$word" in
    -*) COMPREPLY=( $(compgen -W "$options" -- "$word") ) ;;
    *) COMPREPLY=( $(compgen -W "$options" -- "$word" | grep -v "^-") $(compgen -f -- "$word") ) ;;
  esac
}
complete -o filenames -F _${name} ${name}
`;

function fish(name: string, all: Listed[]): string {
  const lines = all.flatMap(({ path, says, options }) => {
    const [command, sub] = path.split(' ');
    const when =
      sub === undefined
        ? `__fish_seen_subcommand_from ${command!}`
        : `__fish_seen_subcommand_from ${command!}; and __fish_seen_subcommand_from ${sub}`;
    const begins = sub === undefined ? '__fish_use_subcommand' : `__fish_seen_subcommand_from ${command!}`;
    return [
      `complete -c ${name} -n '${begins}' -a '${sub ?? command!}' -d '${says}'`,
      ...options.map(
        ({ long, short, says: what, takes }) =>
          `complete -c ${name} -n '${when}' -l '${long.slice(2)}'${short === undefined ? '' : ` -s '${short.slice(1)}'`}${takes ? ' -r' : ''} -d '${what}'`,
      ),
    ];
  });
  return `# Completion of ${name}: ${name} completion fish | source\n${lines.join('\n')}\n`;
}
