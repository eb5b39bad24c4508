/** The name people see of a step, person, gear, product or option; its id where there is none. */
export const nameOf = (list: readonly { id: string; name: string }[], id: string): string =>
  list.find((one) => one.id === id)?.name ?? id;
