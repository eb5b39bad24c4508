/** Options of staff, one press each: who and where are chosen in the line itself. */
import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { clockAfter } from '../../../src/scenario/clock.ts';
import type { Scenario } from '../../../src/scenario/schema.ts';
import { choiceMade } from '../../../src/whatif/make.ts';
import { coverNow } from '../../../src/whatif/posts.ts';
import '../../parts/choice.ts';
import '../../parts/clock.ts';
import type { PartEvent } from '../../parts/events.ts';
import { base } from '../../parts/style.ts';
import { lastOf } from '../../work/same.ts';
import { shiftOf } from '../common/resolved.ts';
import type { Option } from './options.ts';

type Choice = HTMLElementTagNameMap['cw-choice']['choices'][number];

const MINUTES = ['10', '15', '30', '45', '60', '90', '120'].map((value) => ({
  value,
  label: `${value} min`,
}));
const LATE = '30';
/** When somebody is lent to another line, where nothing else is said: minutes after the start. */
const LENT = { from: 120, to: 180 };

/** What was chosen in a line; what is not there (any more) is the first of its list. */
type Chosen = Readonly<Record<string, string>>;

interface Press {
  label: string;
  word: string;
  given: string;
}

/**
 * `<cw-staff .scenario=${…}>`: one more person at a post, somebody in training, a second post, a swap, out,
 * late, away. Event: `beside` with an option as its detail.
 */
@customElement('cw-staff')
export class CwStaff extends LitElement {
  static override styles = [
    base,
    css`
      ul {
        list-style: none;
        margin: 0;
        padding: 0;
      }
      li {
        border-bottom: 1px solid var(--hairline);
        padding: var(--space-2) 0 var(--space-1);
      }
      h3 {
        font: 600 var(--size) / 1.4 var(--text);
      }
      .line {
        display: flex;
        flex-wrap: wrap;
        align-items: end;
        gap: 0 var(--space-3);
      }
      .line > :is(cw-choice, cw-clock) {
        flex: 1 1 6.5rem;
        min-width: 0;
        max-width: 16rem;
      }
      button {
        font-weight: 400;
        padding: 0 var(--space-1);
      }
      .presses {
        display: flex;
        flex-wrap: wrap;
        gap: 0 var(--space-3);
      }
    `,
  ];
  @property({ attribute: false }) scenario!: Scenario;
  @state() private chosen: Chosen = {};
  /** Why a press came to nothing, and in which line. */
  @state() private refused: { line: string; why: string } | null = null;

  private readonly lists = lastOf((scenario: Scenario) => {
    const shift = shiftOf(scenario);
    const named = ({ id, name }: { id: string; name: string }): Choice => ({ value: id, label: name });
    const posts = shift.steps.filter(({ kind, aside }) => kind === 'hands' && !aside);
    return { shift, posts: posts.map(named), people: shift.people.map(named) };
  });

  protected override render(): TemplateResult | typeof nothing {
    const { posts, people } = this.lists(this.scenario);
    if (posts.length === 0 || people.length === 0) return nothing;
    return html`<h2>Somebody more, less or elsewhere</h2>
      <ul>
        ${this.newcomer('person', 'One more person at', posts)}${this.newcomer('trainee', 'Somebody in training at', posts)}
        ${this.also(people)}${people.length < 2 ? nothing : this.swap(people)}${this.out(people)}${this.late(people)}${this.away(people)}
      </ul>`;
  }

  private newcomer(word: 'person' | 'trainee', title: string, posts: Choice[]): TemplateResult {
    const post = this.value(`${word} post`, posts);
    return this.line(
      word,
      title,
      [this.list(`${word} post`, 'Post', posts)],
      [
        { label: 'put beside', word, given: post },
        { label: 'with a bench', word, given: `${post}+bench` },
      ],
    );
  }

  private also(people: Choice[]): TemplateResult | typeof nothing {
    const { shift, posts } = this.lists(this.scenario);
    const free = (id: string): Choice[] => {
      const person = shift.people.find((one) => one.id === id)!;
      return posts
        .filter(({ value }) => !coverNow(person).includes(value))
        .map(({ value, label }) => ({
          value,
          label: Object.hasOwn(person.skills, value) ? label : `${label} (no skill in the file)`,
        }));
    };
    const able = people.filter(({ value }) => free(value).length > 0);
    if (able.length === 0) return nothing;
    const person = this.value('also person', able);
    const there = free(person);
    return this.line(
      'also',
      'Also stands at',
      [this.list('also person', 'Who', able), this.list('also post', 'Where too', there)],
      [{ label: 'put beside', word: 'also', given: `${person}=${this.value('also post', there)}` }],
    );
  }

  private swap(people: Choice[]): TemplateResult {
    const one = this.value('swap one', people);
    const others = people.filter(({ value }) => value !== one);
    return this.line(
      'swap',
      'Swap posts',
      [this.list('swap one', 'Who', people), this.list('swap other', 'With whom', others)],
      [{ label: 'put beside', word: 'swap', given: `${one},${this.value('swap other', others)}` }],
    );
  }

  private out(people: Choice[]): TemplateResult {
    return this.line(
      'out',
      'Out',
      [this.list('out person', 'Who', people)],
      [{ label: 'put beside', word: 'out', given: this.value('out person', people) }],
    );
  }

  private late(people: Choice[]): TemplateResult {
    const by = this.chosen['late by'] ?? LATE;
    return this.line(
      'late',
      'Late',
      [this.list('late person', 'Who', people), this.list('late by', 'By', MINUTES, by)],
      [{ label: 'put beside', word: 'late', given: `${this.value('late person', people)}=${by}` }],
    );
  }

  private away(people: Choice[]): TemplateResult {
    const { start } = this.lists(this.scenario).shift;
    const person = this.value('away person', people);
    const clock = (name: 'from' | 'to', label: string): [string, TemplateResult] => {
      const key = `away ${name}`;
      const value = this.chosen[key] ?? clockAfter(start, LENT[name]);
      return [
        value,
        html`<cw-clock
          label=${label}
          .value=${value}
          @cw-change=${(event: PartEvent<'cw-change', string>) => this.choose(key, event.detail.value)}
        ></cw-clock>`,
      ];
    };
    const [[from, since], [to, until]] = [clock('from', 'From'), clock('to', 'Until')];
    const lent = this.lists(this.scenario).shift.people.find(({ id }) => id === person)!.away.length > 0;
    return this.line(
      'away',
      'Away on another line',
      [this.list('away person', 'Who', people), since, until],
      [
        { label: 'put beside', word: 'away', given: `${person}=${from}-${to}` },
        ...(lent ? [{ label: 'never away', word: 'away', given: `${person}=none` }] : []),
      ],
    );
  }

  private line(
    word: string,
    title: string,
    fields: TemplateResult[],
    presses: [Press, ...Press[]],
  ): TemplateResult {
    const { refused } = this;
    return html`<li>
      <h3 id=${word}>${title}</h3>
      <div class="line">
        ${fields}
        <div class="presses" role="group" aria-labelledby=${word}>
          ${presses.map(
            (press) =>
              html`<button
                type="button"
                aria-label=${`${press.label}: ${title}`}
                @click=${() => this.press(word, press)}
              >
                ${press.label}
              </button>`,
          )}
        </div>
      </div>
      <p class="wrong" role="alert" ?hidden=${refused?.line !== word}>${refused?.why ?? ''}</p>
    </li>`;
  }

  private press(line: string, { word, given }: Press): void {
    const made = choiceMade(this.scenario, { word, given });
    if (made.kind === 'refused') {
      this.refused = { line, why: made.why };
      return;
    }
    this.refused = null;
    const { label, changes, price } = made.made;
    const detail: Option & { name: string } = {
      name: label.slice(0, 120),
      changes: changes as Option['changes'],
      ...(price === undefined ? {} : { price }),
    };
    this.dispatchEvent(new CustomEvent('beside', { detail }));
  }

  private list(
    key: string,
    label: string,
    choices: Choice[],
    value = this.value(key, choices),
  ): TemplateResult {
    return html`<cw-choice
      list
      quiet
      label=${label}
      .choices=${choices}
      value=${value}
      @cw-change=${(event: PartEvent<'cw-change', string>) => this.choose(key, event.detail.value)}
    ></cw-choice>`;
  }

  private value(key: string, choices: Choice[]): string {
    const chosen = this.chosen[key];
    return choices.some(({ value }) => value === chosen) ? chosen! : choices[0]!.value;
  }

  private choose(key: string, value: string): void {
    this.chosen = { ...this.chosen, [key]: value };
    this.refused = null;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'cw-staff': CwStaff;
  }
}
