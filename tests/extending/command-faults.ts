/** What every command has to have, so that a newcomer's cannot do without. */
import type { Command } from 'commander';

/** Commands whose output is data, a file or a shell's own words anyway, or a page in the browser. */
const WITHOUT_JSON = ['completion', 'new', 'schema', 'start'];

/**
 * What is missing, one line each.
 * @param commands as the list makes them.
 * @param explained names of commands in the README's table.
 */
export function commandFaults(commands: readonly Command[], explained: readonly string[]): string[] {
  const names = commands.map((one) => one.name());
  return commands.flatMap((one, i) => {
    const name = one.name();
    const within = (parent: Command): Command[] => [parent, ...parent.commands.flatMap(within)];
    const all = within(one);
    const faults: [boolean, string][] = [
      [!/^[a-z]+(-[a-z]+)*$/.test(name), 'is not named in small letters'],
      [names.indexOf(name) !== i, 'has the name of another'],
      [!explained.includes(name), "has no row in the README's table"],
      [all.some((part) => part.description() === ''), 'is not described'],
      [
        all.some((part) => part.options.some((option) => option.description === '')),
        'has an option that is not explained',
      ],
      [
        all.some((part) => part.registeredArguments.some((argument) => argument.description === '')),
        'has an argument that is not explained',
      ],
      [
        !WITHOUT_JSON.includes(name) &&
          !all.some((part) => part.options.some((option) => option.long === '--json')),
        'gives no JSON',
      ],
    ];
    return faults.filter(([wrong]) => wrong).map(([, what]) => `${name === '' ? 'a command' : name} ${what}`);
  });
}
