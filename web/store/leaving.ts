/**
 * What stands half typed in a field is given up to the cell when the page is left: a reload, a closed tab or
 * a tablet put down sends no `change` of its own.
 */

/** The field that is being written, through the roots of all elements it lies in. */
function fieldInUse(): HTMLInputElement | HTMLTextAreaElement | null {
  let element = document.activeElement;
  while (element?.shadowRoot?.activeElement != null) element = element.shadowRoot.activeElement;
  if (element instanceof HTMLTextAreaElement) return element;
  return element instanceof HTMLInputElement && TEXTS.has(element.type) ? element : null;
}

const TEXTS = new Set(['text', 'search', 'number', 'date', 'time', 'tel', 'url', 'email']);

/** As if it were left; the cursor stays where it is, for somebody who comes back. */
export function giveUpField(): void {
  fieldInUse()?.dispatchEvent(new Event('change', { bubbles: true }));
}
