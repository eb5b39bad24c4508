import { css, html, LitElement, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { timeSchema, type Time } from '../../src/scenario/schema.ts';
import './choice.ts';
import { tell, type PartEvent } from './events.ts';
import './number.ts';
import { readNumber } from './reading.ts';
import { base } from './style.ts';
import './text.ts';
import {
  asKind,
  asPeopleSay,
  kindOf,
  TIME_FIELDS,
  TIME_KINDS,
  timeInWords,
  type Quick,
  type TimeKind,
} from './time-words.ts';

/**
 * `<cw-time-curve label="Fitting" .value=${time}>`: how long something takes. Quick, usual and slow come
 * first; "always the same" and the curves of a statistician stand behind "another way". Properties: label,
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
      summary {
        display: inline-flex;
        align-items: center;
        min-height: var(--touch);
        cursor: pointer;
        text-decoration: underline;
        text-decoration-thickness: 1px;
        text-underline-offset: 0.25em;
      }
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
    const kind = kindOf(this.value);
    const said = this.message || this.wrong;
    return html`<fieldset>
      <legend>${this.label}</legend>
      ${kind === 'fixed' ? this.fixed(this.value as number) : this.three()}
      <details ?open=${kind !== 'people' && kind !== 'fixed'}>
        <summary>${kind === 'fixed' ? 'it varies, or another way' : 'say it another way'}</summary>
        <div class="other">
          <cw-choice
            label="Given as"
            list
            .choices=${[...TIME_KINDS]}
            value=${kind}
            @cw-change=${this.otherKind}
          ></cw-choice>
          ${kind === 'observed' ? this.observed() : this.fields(kind)}
        </div>
      </details>
      ${this.hint === '' ? nothing : html`<p class="hint">${this.hint}</p>`}
      <p class="wrong" role="status" ?hidden=${said === ''}>${said}</p>
    </fieldset>`;
  }

  private three(): TemplateResult {
    const quick = asPeopleSay(this.value);
    const field = (key: keyof Quick, label: string, hint: string): TemplateResult =>
      html`<cw-number
        bare
        label=${label}
        hint=${hint}
        unit="min"
        least="0"
        most="100000"
        step="0.5"
        .value=${quick[key]}
        @cw-try=${(event: PartEvent<'cw-try', number>) => this.people(event, key, false)}
        @cw-change=${(event: PartEvent<'cw-change', number>) => this.people(event, key, true)}
      ></cw-number>`;
    return html`<div class="three">
        ${field('quick', 'Quick', 'one in ten is quicker')}${field('usual', 'Usual', 'half are under it')}${field('slow', 'Slow', 'one in ten is slower')}
      </div>
      ${kindOf(this.value) === 'people' ? nothing : html`<p class="hint">About what “${TIME_KINDS.find((one) => one.value === kindOf(this.value))!.label}” below comes to. Change one here and these three are what holds.</p>`}`;
  }

  private fixed(value: number): TemplateResult {
    return html`<cw-number
      label="Always"
      unit="min"
      least="0"
      most="100000"
      step="0.5"
      .value=${value}
      @cw-try=${(event: PartEvent<'cw-try', number>) => this.pass(event, event.detail.value, false)}
      @cw-change=${(event: PartEvent<'cw-change', number>) => this.pass(event, event.detail.value, true)}
    ></cw-number>`;
  }

  private fields(kind: TimeKind): (TemplateResult | typeof nothing)[] {
    return (TIME_FIELDS[kind] ?? []).map(({ key, label, unit, least, most, share }) => {
      const times = share === true ? 100 : 1;
      const now = (this.value as Record<string, number>)[key]!;
      const set = (event: PartEvent<'cw-change', number>, keep: boolean): void =>
        this.pass(
          event,
          { ...(this.value as object), [key]: Math.round((event.detail.value / times) * 1e6) / 1e6 } as Time,
          keep,
        );
      return html`<cw-number
        bare
        label=${label}
        unit=${unit}
        .least=${least}
        .most=${most}
        step=${share === true ? 1 : 0.5}
        .value=${now * times}
        @cw-try=${(event: PartEvent<'cw-try', number>) => set(event, false)}
        @cw-change=${(event: PartEvent<'cw-change', number>) => set(event, true)}
      ></cw-number>`;
    });
  }

  private observed(): TemplateResult {
    const values = (this.value as { values: number[] }).values;
    return html`<cw-text
      tall
      label="Times taken, minutes"
      hint="One a line, or with spaces between."
      .value=${values.join('\n')}
      @cw-try=${(event: Event) => event.stopPropagation()}
      @cw-change=${this.readObserved}
    ></cw-text>`;
  }

  private readonly readObserved = (event: PartEvent<'cw-change', string>): void => {
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
    this.settle(
      { curve: 'observed', values: reads.map(({ read }) => (read.kind === 'fine' ? read.value! : 0)) },
      true,
    );
  };

  private people(event: Event & { detail: { value: number } }, key: keyof Quick, keep: boolean): void {
    this.pass(event, { ...asPeopleSay(this.value), [key]: event.detail.value }, keep);
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

/** Why these numbers make no time together; empty where they do. */
function faultOf(time: Time): string {
  if (typeof time === 'object' && 'quick' in time && !(time.quick < time.usual && time.usual < time.slow)) {
    return `Quick, usual and slow have to rise: ${time.quick}, ${time.usual}, ${time.slow} do not.`;
  }
  if (typeof time === 'object' && 'least' in time) {
    const rising =
      time.curve === 'triangular'
        ? time.least <= time.likeliest && time.likeliest <= time.most
        : time.least <= time.most;
    if (!rising) return `From least to most these numbers have to rise.`;
  }
  const read = timeSchema.safeParse(time);
  return read.success ? '' : `This makes no time yet: ${timeInWords(time)}.`;
}

declare global {
  interface HTMLElementTagNameMap {
    'cw-time-curve': CwTimeCurve;
  }
}
