import { sample, type CompiledTime } from '../../src/duration/compile.ts';

/**
 * Mean and variance of what `sample` gives over all 2^32 words, by adding up evenly spaced words octave by
 * octave from both ends (where the words of an octave outnumber `places`, only so many of them, each standing
 * for its neighbours).
 */
export function momentsOfSampler(time: CompiledTime, places = 4096): { mean: number; variance: number } {
  let mean = 0;
  let squares = 0;
  const add = (word: number, weight: number): void => {
    const away = sample(time, word) - time.mean;
    mean += weight * away;
    squares += weight * away * away;
  };
  for (const flip of [0, -1]) {
    add(flip, 1 / 2 ** 32);
    for (let octave = 0; octave < 31; octave++) {
      const words = 2 ** octave;
      const used = Math.min(words, places);
      for (let i = 0; i < used; i++)
        add((words + Math.floor(((i + 0.5) * words) / used)) ^ flip, words / used / 2 ** 32);
    }
  }
  return { mean: time.mean + mean, variance: squares - mean * mean };
}
