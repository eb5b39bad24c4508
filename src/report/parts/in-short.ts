/** The cautions where a sheet has no room for each: who decides what. None goes out without them. */
export const IN_SHORT =
  'The adhesive’s data sheet sets cure times; law and agreements set breaks, hours, overtime, pay, dust and vibration; training clears people for a task. This is a forecast, not a promise.';
