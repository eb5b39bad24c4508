import { describe, expect, test } from 'vitest';
import { nextTheme, type Theme } from '../../web/shell/next-theme.ts';

describe('the theme', () => {
  test.each([
    ['a light', false, 'dark'],
    ['a dark', true, 'light'],
  ] as const)('on %s system turns to the other first, and comes back to the system’s', (_, dark, other) => {
    expect(nextTheme('system', dark)).toBe(other);
    const seen = new Set<Theme>();
    let now: Theme = 'system';
    for (let press = 0; press < 3; press++) {
      now = nextTheme(now, dark);
      seen.add(now);
    }
    expect(now).toBe('system');
    expect(seen.size).toBe(3);
  });
});
