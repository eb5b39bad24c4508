/**
 * Fields of the page, each bound to a place in the draft: its value, what was typed, what is wrong there, and
 * the fitting caution.
 */
import { html, nothing, type TemplateResult } from 'lit';
import { live } from 'lit/directives/live.js';
import { cautionsBeside } from '../../../src/scenario/cautions.ts';
import type { Field } from '../../../src/scenario/cautions/caution.ts';
import type { Time } from '../../../src/duration/time.ts';
import { type Choice } from '../../parts/choice.ts';
import '../../parts/clock.ts';
import type { PartEvent } from '../../parts/events.ts';
import '../../parts/number.ts';
import '../../parts/order.ts';
import '../../parts/text.ts';
import '../../parts/time-curve.ts';
import '../../parts/toggle.ts';
import type { CellStore } from '../../store/cell-store.ts';
import type { Json, Place } from '../../store/draft.ts';
import './json-text.ts';

type Value = Json | undefined;

export interface NumberSettings {
  unit?: string;
  least?: number;
  most?: number;
  step?: number;
  whole?: boolean;
  /** What holds when nothing stands there, in words; with it the field may be empty. */
  usual?: string;
  /** What holds when nothing stands there, as the number shown; the field is then never empty. */
  otherwise?: number;
  hint?: string;
  /** With a rule to drag along. */
  ruled?: boolean;
  to?: number;
  /** Puts the value where it belongs, where more than the one place changes. */
  keep?: (value: number | null) => void;
}

interface ClockSettings {
  usual?: string;
  otherwise?: string;
  hint?: string;
  /** Once another time is kept. */
  then?: (from: string, to: string) => void;
}

export class Fields {
  readonly store: CellStore;
  /** The thing in question, as undo calls it. */
  readonly thing: string;
  private readonly tryOut: (place: Place, value: Value) => void;

  constructor(store: CellStore, thing: string, tryOut: (place: Place, value: Value) => void) {
    this.store = store;
    this.thing = thing;
    this.tryOut = tryOut;
  }

  /** The same for another thing. */
  of(thing: string): Fields {
    return new Fields(this.store, thing, this.tryOut);
  }

  at<T>(place: Place): T | undefined {
    return this.store.at(place) as T | undefined;
  }

  change(what: string, place: Place, value: unknown): void {
    this.store.change(this.thing === '' ? what : `${this.thing}: ${what}`, place, value as Value);
  }

  changeMany(what: string, wanted: [Place, unknown][]): void {
    this.store.changeMany(this.thing === '' ? what : `${this.thing}: ${what}`, wanted as [Place, Value][]);
  }

  /** What is wrong at a place, without its address: it is said at the place itself. */
  wrong(place: Place): string {
    return this.store.faults
      .filter((fault) => place.every((key, i) => fault.place[i] === key))
      .map(({ found, allowed, remedy }) =>
        `Found ${found}. Allowed: ${allowed}. To put it right: ${remedy}.`.replace(/([.?!])\.$/, '$1'),
      )
      .join(' ');
  }

  number(
    place: Place,
    label: string,
    {
      unit = '',
      least = 0,
      most = 100_000,
      step = 1,
      whole = false,
      usual,
      otherwise,
      hint = '',
      ruled = false,
      to,
      keep,
    }: NumberSettings = {},
  ): TemplateResult {
    const at = this.at<number | null>(place) ?? null;
    const tried = (event: PartEvent<'cw-try', number | null>): void => {
      event.stopPropagation();
      this.tryOut(place, event.detail.value ?? undefined);
    };
    const kept = (event: PartEvent<'cw-change', number | null>): void => {
      event.stopPropagation();
      const { value } = event.detail;
      this.store.setTyped(place, null);
      if (keep !== undefined) keep(value);
      else
        this.change(
          `${label.toLowerCase()} ${value === null ? (usual ?? 'as usual') : `${value}${unit === '' ? '' : ` ${unit}`}`}`,
          place,
          value ?? undefined,
        );
    };
    return html`<cw-number
      data-place=${place.join('.')}
      label=${label}
      .value=${live(typeof at === 'number' ? at : (otherwise ?? null))}
      unit=${unit}
      .least=${least}
      .most=${most}
      .step=${step}
      ?whole=${whole}
      .to=${to}
      ?optional=${usual !== undefined}
      usual=${usual ?? ''}
      hint=${hint}
      ?bare=${!ruled}
      wrong=${this.wrong(place)}
      .typed=${this.store.typedAt(place)}
      @cw-try=${tried}
      @cw-change=${kept}
      @cw-wrong=${(event: PartEvent<'cw-wrong'>) => this.store.setTyped(place, event.detail.text)}
    ></cw-number>`;
  }

  clock(
    place: Place,
    label: string,
    { usual, otherwise, hint = '', then }: ClockSettings = {},
  ): TemplateResult {
    const at = this.at<string>(place) ?? otherwise ?? null;
    return html`<cw-clock
      data-place=${place.join('.')}
      label=${label}
      .value=${live(at)}
      ?optional=${usual !== undefined}
      usual=${usual ?? ''}
      hint=${hint}
      wrong=${this.wrong(place)}
      .typed=${this.store.typedAt(place)}
      @cw-try=${(event: PartEvent<'cw-try', string | null>) => this.tryOut(place, event.detail.value ?? undefined)}
      @cw-change=${(event: PartEvent<'cw-change', string | null>) => {
        this.store.setTyped(place, null);
        this.change(
          `${label.toLowerCase()} ${event.detail.value ?? 'as usual'}`,
          place,
          event.detail.value ?? undefined,
        );
        if (at !== null && event.detail.value !== null) then?.(at, event.detail.value);
      }}
      @cw-wrong=${(event: PartEvent<'cw-wrong'>) => this.store.setTyped(place, event.detail.text)}
    ></cw-clock>`;
  }

  text(
    place: Place,
    label: string,
    {
      hint = '',
      most = 120,
      tall = false,
      placeholder = '',
      keep,
    }: {
      hint?: string;
      most?: number;
      tall?: boolean;
      placeholder?: string;
      keep?: (value: string) => void;
    } = {},
  ): TemplateResult {
    const at = this.at<Json>(place);
    return html`<cw-text
      data-place=${place.join('.')}
      label=${label}
      .value=${live(typeof at === 'string' ? at : '')}
      .most=${most}
      ?tall=${tall}
      hint=${hint}
      placeholder=${placeholder}
      wrong=${this.wrong(place)}
      @cw-change=${(event: PartEvent<'cw-change', string>) => {
        const value = event.detail.value.trim();
        if (keep !== undefined) keep(value);
        else this.change(`${label.toLowerCase()} “${value}”`, place, value === '' ? undefined : value);
      }}
    ></cw-text>`;
  }

  toggle(
    place: Place,
    label: string,
    { otherwise = false, hint = '' }: { otherwise?: boolean; hint?: string } = {},
  ): TemplateResult {
    return html`<cw-toggle
        data-place=${place.join('.')}
        label=${label}
        .value=${this.at<boolean>(place) ?? otherwise}
        hint=${hint}
        @cw-change=${(event: PartEvent<'cw-change', boolean>) =>
          this.change(
            `${label.toLowerCase()}: ${event.detail.value ? 'yes' : 'no'}`,
            place,
            event.detail.value === otherwise ? undefined : event.detail.value,
          )}
      ></cw-toggle>
      ${this.said(place)}`;
  }

  choice(
    place: Place,
    label: string,
    choices: Choice[],
    {
      otherwise,
      shown,
      hint = '',
      list = false,
      keep,
    }: { otherwise: string; shown?: string; hint?: string; list?: boolean; keep?: (value: string) => void },
  ): TemplateResult {
    return html`<cw-choice
      data-place=${place.join('.')}
      label=${label}
      .choices=${choices}
      value=${live(shown ?? String(this.at<string>(place) ?? otherwise))}
      hint=${hint}
      ?list=${list}
      wrong=${this.wrong(place)}
      @cw-change=${(event: PartEvent<'cw-change', string>) => {
        const { value } = event.detail;
        const word = choices.find((one) => one.value === value)?.label ?? value;
        if (keep !== undefined) keep(value);
        else this.change(`${label.toLowerCase()}: ${word}`, place, value === otherwise ? undefined : value);
      }}
    ></cw-choice>`;
  }

  /** How long something takes. */
  time(place: Place, label: string, hint = ''): TemplateResult {
    const at = this.at<Time>(place) ?? { quick: 4, usual: 5, slow: 7 };
    return html`<cw-time-curve
      data-place=${place.join('.')}
      label=${label}
      .value=${at}
      hint=${hint}
      wrong=${this.wrong(place)}
      @cw-try=${(event: PartEvent<'cw-try', Time>) => this.tryOut(place, event.detail.value as Json)}
      @cw-change=${(event: PartEvent<'cw-change', Time>) => this.change(label.toLowerCase(), place, event.detail.value)}
    ></cw-time-curve>`;
  }

  /** A time that need not be there: a box to tick, and the time once it is. */
  perhapsTime(place: Place, label: string, offer: Time, hint = ''): TemplateResult {
    const there = this.at<Time>(place) !== undefined;
    return html`<cw-toggle
        label=${label}
        .value=${there}
        hint=${there ? '' : hint}
        @cw-change=${(event: PartEvent<'cw-change', boolean>) => this.change(`${label.toLowerCase()}: ${event.detail.value ? 'yes' : 'no'}`, place, event.detail.value ? offer : undefined)}
      ></cw-toggle>
      ${there ? this.time(place, label, hint) : nothing}`;
  }

  /** Several of a list of names, each ticked or not. */
  several(place: Place, label: string, items: Choice[], { word }: { word: string }): TemplateResult {
    const at = this.at<string[]>(place) ?? [];
    return html`<fieldset class="several">
      <legend>${label}</legend>
      ${items.map(
        ({ value, label: name }) =>
          html`<cw-toggle
            label=${name}
            .value=${at.includes(value)}
            @cw-change=${(event: PartEvent<'cw-change', boolean>) => {
              const next = event.detail.value ? [...at, value] : at.filter((one) => one !== value);
              this.change(
                `${word} ${name}: ${event.detail.value ? 'yes' : 'no'}`,
                place,
                next.length === 0 ? undefined : next,
              );
            }}
          ></cw-toggle>`,
      )}${this.said(place)}
    </fieldset>`;
  }

  /** A list of entries, each with fields of its own. */
  entries<T>(
    place: Place,
    {
      label,
      add,
      make,
      one,
      none,
    }: {
      label: string;
      add: string;
      make: () => T;
      one: (at: Place, entry: T, index: number) => TemplateResult;
      none: string;
    },
  ): TemplateResult {
    const at = this.at<T[]>(place) ?? [];
    const put = (what: string, next: T[]): void =>
      this.change(what, place, next.length === 0 ? undefined : next);
    return html`<fieldset class="entries">
      <legend>${label}</legend>
      ${
        at.length === 0
          ? html`<p class="hint">${none}</p>`
          : at.map(
              (entry, i) =>
                html`<div class="entry">
                  ${one([...place, i], entry, i)}
                  <button
                    type="button"
                    class="plain small out"
                    aria-label=${`Take out number ${i + 1} of “${label}”`}
                    @click=${() =>
                      put(
                        `${label.toLowerCase()}: number ${i + 1} out`,
                        at.filter((_, j) => j !== i),
                      )}
                  >
                    take out
                  </button>
                </div>`,
            )
      }
      <button
        type="button"
        class="add"
        @click=${() => put(`${label.toLowerCase()}: one more`, [...at, make()])}
      >
        + ${add}
      </button>
      ${at.length === 0 ? this.said(place) : nothing}
    </fieldset>`;
  }

  /** A part of the file as text, with its checks: for what is seldom changed. */
  asText(place: Place, label: string, hint: string): TemplateResult {
    return html`<cw-json-text
      data-place=${place.join('.')}
      .store=${this.store}
      .place=${place}
      label=${label}
      hint=${hint}
    ></cw-json-text>`;
  }

  said(place: Place): TemplateResult | typeof nothing {
    const wrong = this.wrong(place);
    return wrong === '' ? nothing : html`<p class="wrong">${wrong}</p>`;
  }

  /** The cautions that belong to a field, where they apply to this cell. */
  caution(field: Field): TemplateResult[] {
    const scenario = this.store.scenario.get();
    if (scenario === null) return [];
    return cautionsBeside(scenario, field).map(
      ({ text, source }) =>
        html`<p class="caution">
          ${text}${source === undefined ? nothing : html` <span class="source">${source}</span>`}
        </p>`,
    );
  }
}

/** What is seldom needed, behind a word. */
export const more = (summary: string, ...inside: unknown[]): TemplateResult =>
  html`<details class="more">
    <summary>${summary}</summary>
    <div class="stack">${inside}</div>
  </details>`;
