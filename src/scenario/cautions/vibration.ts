import { sands } from './applies.ts';
import { caution } from './caution.ts';

export const vibration = caution({
  topic: 'vibration',
  text: 'Sanding machines shake hands and arms: at 7 m/s2 action is due after about 1 hour of trigger time, the limit is reached after about 4.',
  short: 'sanding machines shake hands and arms: keep trigger time short',
  source:
    'Directive 2002/44/EC; UK Control of Vibration at Work Regulations 2005: action 2.5, limit 5 m/s2 A(8).',
  beside: ['sanding', 'limit of vibration'],
  onShortPapers: [],
  applies: sands,
});
