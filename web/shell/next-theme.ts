export type Theme = 'system' | 'light' | 'dark';

/** The theme that a press turns to, where the system is dark or light. */
export function nextTheme(now: Theme, systemDark: boolean): Theme {
  const other: Theme = systemDark ? 'light' : 'dark';
  const order: Theme[] = ['system', other, systemDark ? 'dark' : 'light'];
  return order[(order.indexOf(now) + 1) % order.length]!;
}
