/**
 * Styles of one element, set property by property: lit's own `styleMap` writes a style attribute at first,
 * which the page's policy refuses.
 */
import { noChange } from 'lit';
import { Directive, directive, type AttributePart } from 'lit/directive.js';

type Styles = Record<string, string>;

class Placed extends Directive {
  private before: string[] = [];

  render(_styles: Styles): typeof noChange {
    return noChange;
  }

  override update(part: AttributePart, [styles]: [Styles]): typeof noChange {
    const { style } = part.element as HTMLElement;
    for (const name of this.before) if (!(name in styles)) style.removeProperty(name);
    for (const [name, value] of Object.entries(styles)) style.setProperty(name, value);
    this.before = Object.keys(styles);
    return noChange;
  }
}

/** `style=${placed({ left: '4px', '--size': '12' })}`; names as CSS writes them. */
export const placed = directive(Placed);
