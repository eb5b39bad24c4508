/**
 * Colours of the pictures: one meaning each, everywhere. The same values stand as custom properties in
 * web/look.css; a test keeps the two alike and holds them to their contrast and to colour-blind eyes.
 */

/** What a stretch of time on a person, a clamp set or a rack means. `off`: on a break or away. */
export const MEANINGS = ['glue-up', 'cure', 'waiting', 'unclamping', 'other', 'free', 'off'] as const;
export type Meaning = (typeof MEANINGS)[number];

export const MEANING_WORDS: Record<Meaning, string> = {
  'glue-up': 'glue-up',
  cure: 'cure',
  waiting: 'waiting for hands',
  unclamping: 'unclamping',
  other: 'other work',
  free: 'free',
  off: 'on a break or away',
};

export interface Palette {
  paper: string;
  /** A second ground, for breaks and fields. */
  shade: string;
  ink: string;
  muted: string;
  hairline: string;
  'glue-up': string;
  cure: string;
  waiting: string;
  unclamping: string;
  other: string;
}

export const LIGHT: Palette = {
  paper: '#fbf8f3',
  shade: '#f1ece3',
  ink: '#211e1a',
  muted: '#655f56',
  hairline: '#d8d0c3',
  'glue-up': '#0b6b66',
  cure: '#b9860f',
  waiting: '#c2301a',
  unclamping: '#3d3a94',
  other: '#8a8378',
};

export const DARK: Palette = {
  paper: '#191816',
  shade: '#24221f',
  ink: '#ece7dd',
  muted: '#aca396',
  hairline: '#3c3832',
  'glue-up': '#2fa59a',
  cure: '#e8b84a',
  waiting: '#f4653f',
  unclamping: '#7b78e6',
  other: '#857f75',
};
