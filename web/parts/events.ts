/**
 * What the parts tell the page, always with the same names:
 * - `cw-try`    { value }          a value on its way (typing, dragging): show its effect, keep nothing yet
 * - `cw-change` { value }          the value is kept
 * - `cw-wrong`  { text, message }  what was typed cannot be read; keep `text` and hand it back as `typed`
 */
export interface PartEvents {
  'cw-try': { value: unknown };
  'cw-change': { value: unknown };
  'cw-wrong': { text: string; message: string };
  'cw-close': { kept: boolean };
  'cw-stop': null;
  'cw-act': { act: string };
}

export function tell<Name extends keyof PartEvents>(
  host: HTMLElement,
  name: Name,
  detail: PartEvents[Name],
): void {
  host.dispatchEvent(new CustomEvent(name, { detail, bubbles: true, composed: true }));
}

/** The event as a listener of a page receives it: `(event: PartEvent<'cw-change', number | null>) => …`. */
export type PartEvent<Name extends keyof PartEvents, Value = unknown> = CustomEvent<
  PartEvents[Name] extends { value: unknown } ? { value: Value } : PartEvents[Name]
>;
