/**
 * A command line as three shells read it: sh (POSIX Shell Command Language, 2.2 Quoting), cmd.exe with the
 * rules of the C runtime it hands the line to (Microsoft, "Parsing C command-line arguments"), and
 * PowerShell (about_Parsing: a comma outside quotes makes a list, which a program gets as several words).
 * For lines of plain words and double quotes; what a shell would read as a sign of its own is refused.
 */
const SIGNS = {
  sh: /[$`\\'!*?[\]{}()<>|&;#~]/,
  cmd: /[%^&|<>()!']/,
  powershell: /[$`'{}()<>|&;#]|(^|\s)@/,
};

/** @throws Error where a sign of the shell stands in the line. */
export function wordsIn(shell: keyof typeof SIGNS, line: string): string[] {
  const sign = SIGNS[shell].exec(line);
  if (sign !== null) throw new Error(`${shell} reads “${sign[0]}” as its own: ${line}`);
  const parts = [...line.matchAll(/(?:[^\s"]|"[^"]*")+/g)].map((found) => found[0]);
  if ((line.split('"').length - 1) % 2 === 1) throw new Error(`a quote without its end: ${line}`);
  return parts.flatMap((part) =>
    (shell === 'powershell' ? part.split(/,(?=(?:[^"]*"[^"]*")*[^"]*$)/) : [part]).map((one) =>
      one.replaceAll('"', ''),
    ),
  );
}
