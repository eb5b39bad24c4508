import { css, html, LitElement, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { Curve, Field, ListField, NumberField } from '../../src/duration/curve.ts';
import { fixed } from '../../src/duration/curves/fixed.ts';
import { quickUsualSlow } from '../../src/duration/curves/quick-usual-slow.ts';
import { curveOf, timeChoices, type Time, type TimeKind } from '../../src/duration/time.ts';
import './choice.ts';
import { tell, type PartEvent } from './events.ts';
import './number.ts';
import { readNumber } from './reading.ts';
import { base, unfolds } from './style.ts';
import './text.ts';
import { asKind, asPeopleSay, faultOf } from './time-words.ts';

/**
 * `<cw-time-curve label="Fitting" .value=${time}>`: how long something takes. Quick, usual and slow come
 * first; "always the same" and the curves of a statistician stand behind "another way". What is asked for
 * each comes from the curve itself (src/duration). Properties: label,
 * value (a Time of the scenario file), hint, wrong. Events: cw-try, cw-change with a Time (also one that is
 * wrong, slow under quick: keep it, the check of the file says so too); cw-wrong where the list of observed
 * times cannot be read.
 */
@customElement('cw-time-curve')
export class CwTimeCurve extends LitElement {
  static override styles = [
    base,
    css`
      .three {
        display: grid;
        grid-template-columns: repeat(auto-fit, minmax(min(13rem, 100%), 1fr));
        gap: var(--space-3) var(--space-4);
      }
      legend {
        font-family: var(--serif);
        font-size: var(--size-large);
        margin-bottom: var(--space-1);
      }
      details {
        margin-top: var(--space-2);
      }
      ${unfolds}
      .other {
        display: grid;
        gap: var(--space-3);
      }
    `,
  ];
  @property() label = '';
  @property({ attribute: false }) value: Time = { quick: 8, usual: 10, slow: 13 };
  @property() hint = '';
  @property() wrong = '';
  @state() private message = '';

  protected override willUpdate(changed: PropertyValues<this>): void {
    if (changed.has('value')) this.message = faultOf(this.value);
  }

  protected override render(): TemplateResult {
    const curve = curveOf(this.value);
    const said = this.message || this.wrong;
    return html`<fieldset>
      <legend>${this.label}</legend>
      ${curve.everyday ? this.lead(curve.fields, this.value) : this.about(curve)}
      <details ?open=${!curve.everyday}>
        <summary>${fixed.is(this.value) ? 'it varies, or another way' : 'say it another way'}</summary>
        <div class="other">
          <cw-choice
            label="Given as"
            list
            .choices=${timeChoices()}
            value=${curve.kind}
            @cw-change=${this.otherKind}
          ></cw-choice>
          ${curve.everyday ? nothing : curve.fields.map((field) => this.field(field, this.value))}
        </div>
      </details>
      ${this.hint === '' ? nothing : html`<p class="hint">${this.hint}</p>`}
      <p class="wrong" role="status" ?hidden=${said === ''}>${said}</p>
    </fieldset>`;
  }

  /** The fields of a curve that is said in everyday terms; one alone has room for its rule. */
  private lead<T extends Time>(fields: readonly Field<T>[], time: T): TemplateResult {
    return fields.length === 1
      ? this.field(fields[0]!, time, false)
      : html`<div class="three">${fields.map((field) => this.field(field, time))}</div>`;
  }

  /** What a statistician's curve comes to, for changing it in everyday terms. */
  private about({ words }: Curve<TimeKind, Time>): TemplateResult {
    return html`${this.lead(quickUsualSlow.fields, asPeopleSay(this.value))}
      <p class="hint">
        About what “${words.choice}” below comes to. Change one here and these three are what holds.
      </p>`;
  }

  private field<T extends Time>(field: Field<T>, time: T, bare = true): TemplateResult {
    return field.kind === 'number' ? this.number(field, time, bare) : this.list(field, time);
  }

  private number<T extends Time>(field: NumberField<T>, time: T, bare: boolean): TemplateResult {
    const set = (event: PartEvent<'cw-try' | 'cw-change', number>, keep: boolean): void =>
      this.pass(event, field.set(time, event.detail.value), keep);
    return html`<cw-number
      ?bare=${bare}
      label=${field.label}
      hint=${field.hint}
      unit=${field.unit}
      .least=${field.least}
      .most=${field.most}
      .step=${field.step}
      .value=${field.get(time)}
      @cw-try=${(event: PartEvent<'cw-try', number>) => set(event, false)}
      @cw-change=${(event: PartEvent<'cw-change', number>) => set(event, true)}
    ></cw-number>`;
  }

  private list<T extends Time>(field: ListField<T>, time: T): TemplateResult {
    return html`<cw-text
      tall
      label=${field.label}
      hint=${field.hint}
      .value=${field.get(time).join('\n')}
      @cw-try=${(event: Event) => event.stopPropagation()}
      @cw-change=${(event: PartEvent<'cw-change', string>) => this.readList(event, field, time)}
    ></cw-text>`;
  }

  private readList<T extends Time>(
    event: PartEvent<'cw-change', string>,
    field: ListField<T>,
    time: T,
  ): void {
    event.stopPropagation();
    const reads = event.detail.value
      .split(/[\s;]+/)
      .filter((part) => part !== '')
      .map((part) => ({ part, read: readNumber(part, { least: 0 }) }));
    const bad = reads.find(({ read }) => read.kind === 'wrong');
    if (bad !== undefined || reads.length === 0) {
      this.message =
        reads.length === 0 ? 'Write at least one time.' : `“${bad!.part}” is not a time in minutes.`;
      tell(this, 'cw-wrong', { text: event.detail.value, message: this.message });
      return;
    }
    const values = reads.map(({ read }) => (read.kind === 'fine' ? read.value! : 0));
    this.settle(field.set(time, values), true);
  }

  private readonly otherKind = (event: PartEvent<'cw-change', TimeKind>): void =>
    this.pass(event, asKind(this.value, event.detail.value), true);

  private pass(event: Event, time: Time, keep: boolean): void {
    event.stopPropagation();
    this.settle(time, keep);
  }

  private settle(time: Time, keep: boolean): void {
    const message = faultOf(time);
    if (message !== '' && !keep) return;
    if (keep) {
      // Kept even while wrong: the three are typed one after the other, and nothing typed may be lost.
      this.message = message;
      this.value = time;
    }
    tell(this, keep ? 'cw-change' : 'cw-try', { value: time });
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'cw-time-curve': CwTimeCurve;
  }
}
