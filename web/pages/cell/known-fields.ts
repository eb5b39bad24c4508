/** How well a time or a share is known, beside the field that holds it. */
import { html, nothing, type TemplateResult } from 'lit';
import { isFixed } from '../../../src/duration/compile.ts';
import { curveOf, type Time } from '../../../src/duration/time.ts';
import { COUNTED_OVER, MEMORY_PERCENT, type TimeKnown } from '../../../src/scenario/known.ts';
import type { Place } from '../../store/draft.ts';
import type { Fields } from './fields.ts';

type Kind = 'exact' | 'memory' | 'timed';

const KINDS: { value: Kind; label: string }[] = [
  { value: 'memory', label: 'from memory' },
  { value: 'timed', label: 'timed at the bench' },
  { value: 'exact', label: 'exactly' },
];

/** Timings to begin with where somebody says that it was timed. */
const SOME_TIMINGS = 10;

/** What holds where the file says nothing: see `inputsOf` in the scenario room. */
function usualKind(time: Time): Kind {
  if (isFixed(time)) return 'exact';
  return curveOf(time).timings(time).length < 2 ? 'memory' : 'timed';
}

function kindOf(known: TimeKnown): Kind {
  if (known === 'exact') return 'exact';
  return 'within' in known ? 'memory' : 'timed';
}

/** @param time the field's place. @param place where the file keeps how well it is known. */
export function timeKnownFields(fields: Fields, time: Place, place: Place): TemplateResult {
  const value = fields.at<Time>(time);
  if (value === undefined) return html``;
  const known = fields.at<TimeKnown>(place);
  const usual = usualKind(value);
  const kind = known === undefined ? usual : kindOf(known);
  const memory = fields.at<number>(['study', 'memory']) ?? MEMORY_PERCENT;
  const began: Record<Kind, TimeKnown> = {
    exact: 'exact',
    memory: { within: memory },
    timed: { times: SOME_TIMINGS },
  };
  return html`${fields.choice(place, 'How well it is known', KINDS, {
    otherwise: usual,
    shown: kind,
    hint: 'Of its mean. This goes into every range: the better it is known, the narrower they are.',
    keep: (wanted) =>
      fields.change(
        `known ${KINDS.find((one) => one.value === wanted)!.label}`,
        place,
        wanted === usual ? undefined : began[wanted as Kind],
      ),
  })}
  ${kind === 'memory' ? fields.number([...place, 'within'], 'Right to within', { unit: '%', least: 0.1, most: 90, otherwise: memory, hint: 'Either way, 95 times in 100.', keep: (within) => fields.change(`known to ${within}%`, place, { within }) }) : nothing}
  ${kind === 'timed' && known !== undefined && known !== 'exact' && 'times' in known ? fields.number([...place, 'times'], 'Timed so often', { whole: true, least: 2, most: 1e6, otherwise: SOME_TIMINGS }) : nothing}`;
}

/** Over how many pieces (or days) a share was counted. @param place of what the file keeps of that. */
export const countedField = (fields: Fields, place: Place, what: 'pieces' | 'days'): TemplateResult =>
  fields.number([...place, 'of'], `Counted over so many ${what}`, {
    whole: true,
    least: 1,
    most: 1e9,
    otherwise: fields.at<number>(['study', 'counted']) ?? COUNTED_OVER,
    hint: 'From memory: leave it. It goes into every range.',
    keep: (of) => fields.change(`counted over ${of} ${what}`, place, of === null ? undefined : { of }),
  });
