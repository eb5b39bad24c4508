import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { live } from 'lit/directives/live.js';
import type { Scenario } from '../../../src/scenario/schema.ts';
import '../../parts/number.ts';
import type { PartEvent } from '../../parts/events.ts';
import { base } from '../../parts/style.ts';
import '../../parts/text.ts';
import '../../parts/toggle.ts';
import { fieldsOf, type Changes, type Field, type NumberField, type ToggleField } from './fields.ts';
import { asOptioned, changesWords, withField, type Edited, type Option } from './options.ts';

/**
 * `<cw-option-editor .scenario=${base} optionId="third-set" .option=${option}>`: one option, changed in
 * place. Event: `edited` with an Edited as its detail. `effect`: what a value that is not kept yet does to
 * the answer.
 */
@customElement('cw-option-editor')
export class CwOptionEditor extends LitElement {
  static override styles = [
    base,
    css`
      .fields {
        display: grid;
        gap: var(--space-4);
        padding: var(--space-2) 0 var(--space-6);
      }
      cw-text,
      .what,
      .price {
        margin-bottom: var(--space-4);
      }
      .what {
        color: var(--muted);
      }
      details {
        border-bottom: 1px solid var(--hairline);
      }
      summary {
        display: flex;
        align-items: center;
        justify-content: space-between;
        gap: var(--space-3);
        min-height: var(--touch);
        cursor: pointer;
        font-weight: 600;
        list-style: none;
      }
      summary::-webkit-details-marker {
        display: none;
      }
      summary::after {
        content: '+' / '';
        font-weight: 400;
        font-size: 1.25rem;
      }
      details[open] > summary::after {
        content: '−' / '';
      }
      .changed {
        border-left: 4px solid var(--ink);
        padding-left: var(--space-3);
      }
      /* In sight whichever field is at hand. */
      .effect {
        position: sticky;
        bottom: 0;
        background: var(--paper);
        border-top: 2px solid var(--ink);
        border-bottom: 1px solid var(--hairline);
        padding: var(--space-3) 0;
        margin-top: var(--space-4);
        z-index: 1;
      }
      .effect p {
        margin: 0;
      }
      .was {
        color: var(--muted);
        font-size: var(--size-small);
        margin: 0;
      }
    `,
  ];
  @property({ attribute: false }) scenario!: Scenario;
  @property() optionId = '';
  @property({ attribute: false }) option!: Option;
  @property() effect = '';
  /** Groups of fields that were opened: fifty fields are not made before somebody looks. */
  @state() private opened: string[] = [];

  protected override render(): TemplateResult {
    const { option, scenario } = this;
    const changed = asOptioned(scenario, option);
    return html` <cw-text
        label="Its name"
        .value=${option.name ?? this.optionId}
        most="120"
        @cw-try=${stop}
        @cw-change=${this.rename}
      ></cw-text>
      <p class="what">
        ${changesWords(scenario, option)}${option.note === undefined ? nothing : html`<br />${option.note}`}
      </p>
      <cw-number
        class="price"
        label="What it costs once"
        unit=${scenario.money?.currency ?? '$'}
        .value=${live(option.price ?? null)}
        least="0"
        most="1000000000"
        step="100"
        optional
        usual="nothing"
        bare
        @cw-try=${stop}
        @cw-change=${this.price}
      ></cw-number>
      ${fieldsOf(scenario).map(
        ({ name, fields }) =>
          html`<details @toggle=${(event: Event) => this.turned(event, name)}>
            <summary>${name}</summary>
            ${this.opened.includes(name) ? html`<div class="fields">${fields.map((field) => this.field(field, changed))}</div>` : nothing}
          </details>`,
      )}
      <div class="effect" role="status" ?hidden=${this.effect === ''}>
        ${this.effect === '' ? nothing : html`<p>Not kept yet: ${this.effect}</p>`}
      </div>`;
  }

  private turned(event: Event, name: string): void {
    if ((event.target as HTMLDetailsElement).open && !this.opened.includes(name))
      this.opened = [...this.opened, name];
  }

  private field(field: Field, changed: Scenario): TemplateResult {
    const [was, is] = [field.read(this.scenario), field.read(changed)];
    return html`<div class=${was === is ? '' : 'changed'}>
      ${field.kind === 'number' ? this.number(field, is as number | null) : this.toggle(field, is as boolean)}
      ${was === is ? nothing : html`<p class="was">as it is: ${wordsOf(field, was)}</p>`}
    </div>`;
  }

  private number(field: NumberField, value: number | null): TemplateResult {
    return html`<cw-number
      patient
      label=${field.label}
      unit=${field.unit}
      .value=${value}
      least=${field.least}
      most=${field.most}
      step=${field.step}
      ?whole=${field.whole}
      ?optional=${field.usual !== undefined}
      usual=${field.usual ?? ''}
      hint=${field.hint ?? ''}
      @cw-try=${(event: PartEvent<'cw-try', number | null>) => this.set(event, field, event.detail.value, false)}
      @cw-change=${(event: PartEvent<'cw-change', number | null>) => this.set(event, field, event.detail.value, true)}
    ></cw-number>`;
  }

  private toggle(field: ToggleField, value: boolean): TemplateResult {
    const put = (event: PartEvent<'cw-change', boolean>, kept: boolean): void => {
      event.stopPropagation();
      this.edit(
        field.write(asOptioned(this.scenario, this.option), event.detail.value, this.scenario),
        kept,
        `${field.label}: ${wordsOf(field, event.detail.value)}`,
      );
    };
    return html`<cw-toggle
      patient
      label=${field.label}
      .value=${value}
      @cw-try=${(event: PartEvent<'cw-try', boolean>) => put(event, false)}
      @cw-change=${(event: PartEvent<'cw-change', boolean>) => put(event, true)}
    ></cw-toggle>`;
  }

  private set(event: Event, field: NumberField, value: number | null, kept: boolean): void {
    event.stopPropagation();
    this.edit(
      field.write(asOptioned(this.scenario, this.option), value, this.scenario),
      kept,
      `${field.label} ${wordsOf(field, value)}`,
    );
  }

  private edit(change: Changes, kept: boolean, say: string): void {
    this.tellEdited({
      option: { ...this.option, changes: withField(this.scenario, this.option, change) },
      kept,
      say,
    });
  }

  private readonly rename = (event: PartEvent<'cw-change', string>): void => {
    event.stopPropagation();
    const name = event.detail.value.trim();
    this.tellEdited({
      option: { ...this.option, name: name === '' ? this.optionId : name },
      kept: true,
      say: `named “${name}”`,
    });
  };

  private readonly price = (event: PartEvent<'cw-change', number | null>): void => {
    event.stopPropagation();
    const { price: _price, ...option } = this.option;
    const { value } = event.detail;
    this.tellEdited({
      option: value === null ? option : { ...option, price: value },
      kept: true,
      say: `price ${value ?? 'none'}`,
    });
  };

  private tellEdited(detail: Edited): void {
    this.dispatchEvent(new CustomEvent('edited', { detail }));
  }
}

const stop = (event: Event): void => event.stopPropagation();

function wordsOf(field: Field, value: number | boolean | null): string {
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (value === null) return field.kind === 'number' ? (field.usual ?? 'as usual') : '';
  return field.kind === 'number' && field.unit !== '' ? `${value} ${field.unit}` : String(value);
}

declare global {
  interface HTMLElementTagNameMap {
    'cw-option-editor': CwOptionEditor;
  }
}
