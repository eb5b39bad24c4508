/** Clock times of a scenario file. */

/** Minutes after midnight of "HH:MM". */
export function minutesOfClock(clock: string): number {
  return Number(clock.slice(0, 2)) * 60 + Number(clock.slice(3, 5));
}

/** "HH:MM" of minutes after midnight (any day; seconds dropped). */
export function clockOfMinutes(minutes: number): string {
  const whole = ((Math.floor(minutes) % 1440) + 1440) % 1440;
  return `${String(Math.floor(whole / 60)).padStart(2, '0')}:${String(whole % 60).padStart(2, '0')}`;
}

/** "HH:MM" so many minutes after `start`. */
export const clockAfter = (start: string, minutes: number): string =>
  clockOfMinutes(minutesOfClock(start) + minutes);

/** Minutes from `start` ("HH:MM") to `clock`, going forward: at least 0 and under 1440. */
export function minutesAfter(start: string, clock: string): number {
  return (minutesOfClock(clock) - minutesOfClock(start) + 1440) % 1440;
}
