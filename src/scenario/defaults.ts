/**
 * What holds where a file says nothing: every default of the format, once. `resolve` fills them in, the
 * schema's descriptions and the placeholders of the page's fields quote them.
 *
 * Laid out as the file is, in the file's own units (clock times "HH:MM", minutes, per cent, hours for pay).
 * Defaults that follow from other fields (benches from `uses`, a person's hours from the shift's) are worked
 * out in resolving/.
 */
export const DEFAULTS = {
  seed: 'clampwright',
  invented: false,
  /** The one product of a file that names none. */
  product: { id: 'piece', share: 1, factor: 1, returned: false },
  step: {
    kind: 'hands',
    people: 1,
    rack: null,
    order: 'first come',
    whole: false,
    plannedAt: 'mean',
    /** Benches of its own where the step names no gear it uses; otherwise none. */
    benches: 1,
    scrap: 0,
    aside: false,
    cause: 'rework',
  },
  gear: { price: null, itemsOut: 1 },
  person: {
    level: 3,
    rule: 'in order',
    attendance: 100,
    latePercent: 100,
    pay: 0,
    overtime: true,
    hoursThisWeek: 0,
    daysThisWeek: 0,
    awayPayShare: 0,
  },
  /** Of levels 1 to 4. */
  skillLevels: { factors: [1.6, 1.25, 1, 1], rework: [1, 1, 1, 1] },
  shift: {
    start: '06:00',
    end: '14:30',
    tidyUp: 0,
    atEnd: 'finish',
    allowance: 1,
    target: null,
    overtime: { until: 'none', cap: 60 },
  },
  break: { name: 'break', paid: true },
  intake: { kind: 'at start', units: 60, whenFull: 'hold', late: 0 },
  arrival: { units: 1, dueAfter: null },
  carried: { state: 'waiting', units: 1, arrived: 0, waited: 0 },
  outRack: { racks: 1, back: 0, standing: 0 },
  nextShift: { days: 1 },
  pay: {
    overtimeFactor: 1.5,
    dailyAfter: 'own end',
    weeklyAfter: 40,
    doubleAfter: null,
    doubleFactor: 2,
    seventhDay: false,
  },
  money: { currency: '$', margin: null, sellsMore: false, shiftsPerYear: 240, discount: 8, benchPrice: null },
  limits: { trigger: 100, vibrationPoints: 400, hoursPerDay: null },
  study: { precision: 0.25, confidence: 95, difference: 0.5, most: 20_000, promise: 90 },
  option: { price: null },
  calendar: { workingDays: ['mon', 'tue', 'wed', 'thu', 'fri'] },
} as const;
