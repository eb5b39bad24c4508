/** The clock on the wall where the shop is. */

const two = (value: number): string => String(value).padStart(2, '0');

/** Today, "2027-03-05". */
export function today(): string {
  const now = new Date();
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

/** Now, "10:40". */
export function clockNow(): string {
  const now = new Date();
  return `${two(now.getHours())}:${two(now.getMinutes())}`;
}
