/**
 * Names people give to the columns of a list of times, in the languages of the shops this is likely to meet.
 */

/** What a column can hold. */
export type Role = 'step' | 'product' | 'person' | 'minutes' | 'start' | 'end' | 'date' | 'rating' | 'repeat';

/**
 * English first, then German, French, Spanish, Italian, Dutch, Polish, Swedish; folded as `fold` does. A name
 * matches whole.
 */
const WORDS: Record<Role, string[]> = {
  step: [
    'step',
    'station',
    'task',
    'operation',
    'process',
    'activity',
    'work',
    'job',
    'post',
    'stage',
    'what',
    'op',
    'work step',
    'schritt',
    'arbeitsschritt',
    'arbeitsgang',
    'vorgang',
    'tatigkeit',
    'etape',
    'operazione',
    'poste',
    'tache',
    'paso',
    'tarea',
    'operacion',
    'fase',
    'stap',
    'bewerking',
    'handeling',
    'krok',
    'czynnosc',
    'operacja',
    'steg',
    'moment',
    'arbetsmoment',
  ],
  product: [
    'product',
    'item',
    'model',
    'article',
    'part',
    'type',
    'kind',
    'sku',
    'chair',
    'produkt',
    'artikel',
    'modell',
    'typ',
    'produit',
    'modele',
    'producto',
    'modelo',
    'prodotto',
    'modello',
    'articolo',
    'wyrob',
    'onderdeel',
  ],
  person: [
    'person',
    'who',
    'name',
    'operator',
    'worker',
    'employee',
    'by',
    'hand',
    'mitarbeiter',
    'mitarbeiterin',
    'wer',
    'bediener',
    'operateur',
    'ouvrier',
    'qui',
    'nom',
    'persona',
    'operario',
    'quien',
    'nombre',
    'operatore',
    'chi',
    'nome',
    'medewerker',
    'wie',
    'naam',
    'osoba',
    'pracownik',
    'kto',
    'vem',
    'namn',
  ],
  minutes: [
    'minutes',
    'minute',
    'min',
    'mins',
    'time',
    'duration',
    'time taken',
    'took',
    'elapsed',
    'observed',
    'observed time',
    'seconds',
    'second',
    'sec',
    'secs',
    's',
    'hours',
    'hour',
    'h',
    'dauer',
    'minuten',
    'zeit',
    'sekunden',
    'stunden',
    'duree',
    'temps',
    'secondes',
    'heures',
    'minutos',
    'tiempo',
    'duracion',
    'segundos',
    'horas',
    'minuti',
    'tempo',
    'durata',
    'secondi',
    'duur',
    'tijd',
    'seconden',
    'czas',
    'minuty',
    'tid',
    'minuter',
    'sekunder',
  ],
  start: [
    'start',
    'from',
    'begin',
    'began',
    'begins',
    'started',
    'start time',
    'in',
    'beginn',
    'von',
    'anfang',
    'startzeit',
    'debut',
    'de',
    'inicio',
    'desde',
    'inizio',
    'dalle',
    'van',
    'begintijd',
    'starttijd',
    'poczatek',
    'od',
    'borjan',
    'fran',
  ],
  end: [
    'end',
    'to',
    'finish',
    'finished',
    'ended',
    'ends',
    'stop',
    'until',
    'end time',
    'out',
    'ende',
    'bis',
    'endzeit',
    'fin',
    'jusqua',
    'a',
    'hasta',
    'fine',
    'alle',
    'tot',
    'eindtijd',
    'einde',
    'koniec',
    'do',
    'slut',
    'till',
  ],
  date: ['date', 'day', 'datum', 'tag', 'jour', 'fecha', 'dia', 'data', 'giorno', 'dag', 'dzien'],
  rating: [
    'rating',
    'performance',
    'pace',
    'effort',
    'performance rating',
    'leistungsgrad',
    'lg',
    'allure',
    'ritmo',
    'valoracion',
    'tempofactor',
    'prestatiegraad',
    'ocena',
    'prestation',
  ],
  repeat: [
    'repeat',
    'visit',
    'rework',
    'again',
    'second time',
    'nacharbeit',
    'wiederholung',
    'reprise',
    'retouche',
    'repeticion',
    'retrabajo',
    'ripresa',
    'herhaling',
    'poprawka',
  ],
};

const BY_WORD = new Map<string, Role>();
for (const [role, words] of Object.entries(WORDS) as [Role, string[]][]) {
  for (const word of words) if (!BY_WORD.has(word)) BY_WORD.set(word, role);
}

/** Small letters without accents; everything but letters and digits is one space. */
export function fold(text: string): string {
  return text
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .replaceAll('ł', 'l')
    .replaceAll('Ł', 'l')
    .replaceAll('ø', 'o')
    .replaceAll('ß', 'ss')
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, ' ')
    .trim();
}

/** The unit a column name tells, if any: "Time (sec)", "Dauer in Sekunden". */
export function unitOf(name: string): 'minutes' | 'seconds' | 'hours' | null {
  const words = fold(name).split(' ');
  const has = (pattern: RegExp): boolean => words.some((word) => pattern.test(word));
  if (has(/^(s|secs?|seconds?|sekunden?|sek|secondes?|segundos?|secondi|seconden|sekunder)$/))
    return 'seconds';
  if (has(/^(h|hrs?|hours?|stunden?|std|heures?|horas?|ore|uren)$/)) return 'hours';
  if (has(/^(min|mins|minutes?|minuten?|minutos?|minuti|minuty|minuter)$/)) return 'minutes';
  return null;
}

/**
 * What a column name says the column holds: the whole name, without a unit in brackets, or else one word of
 * it that can mean nothing else; null where it says nothing.
 */
export function roleOf(name: string): Role | null {
  const bare = fold(name.replace(/[([{].*?[)\]}]/g, ' '));
  if (bare === '') return null;
  const whole = BY_WORD.get(bare);
  if (whole !== undefined) return whole;
  const words = bare.split(' ');
  if (words.length > 4) return null;
  const clear: Role[] = ['start', 'end', 'rating', 'repeat', 'date', 'minutes', 'person', 'product', 'step'];
  for (const role of clear) {
    if (words.some((word) => word.length > 2 && BY_WORD.get(word) === role)) return role;
  }
  return null;
}

/** How many cells of a row are column names we know; 0 where any cell holds a figure by itself. */
export function looksLikeHeader(cells: string[]): number {
  if (cells.some((cell) => /^\s*[-+]?[\d.,:]+\s*$/.test(cell))) return 0;
  const roles = new Set(cells.map(roleOf).filter((role) => role !== null));
  return roles.size >= 2 || (roles.size === 1 && cells.length === 1) ? roles.size : 0;
}
