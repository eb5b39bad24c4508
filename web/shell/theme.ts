/** Light, dark, or as the system has it; kept for the next visit where the browser lets us. */
import { Value } from '../store/value.ts';
import { nextTheme, type Theme } from './next-theme.ts';

const KEY = 'clampwright-theme';

function kept(): Theme {
  try {
    const value = localStorage.getItem(KEY);
    return value === 'light' || value === 'dark' ? value : 'system';
  } catch {
    return 'system';
  }
}

export const theme = new Value<Theme>(kept());

function show(value: Theme): void {
  if (value === 'system') delete document.documentElement.dataset['theme'];
  else document.documentElement.dataset['theme'] = value;
}

show(theme.get());
theme.subscribe((value) => {
  show(value);
  try {
    if (value === 'system') localStorage.removeItem(KEY);
    else localStorage.setItem(KEY, value);
  } catch {
    // Not kept for the next time; the theme of this visit holds all the same.
  }
});

/** Light, dark, as the system has it, and round again; the first press always shows something else. */
export function turnTheme(): void {
  theme.set(nextTheme(theme.get(), matchMedia('(prefers-color-scheme: dark)').matches));
}

const WORDS: Record<Theme, string> = { system: 'as the system', light: 'light', dark: 'dark' };
export const themeWords = (now: Theme): string => WORDS[now];
