/** The day on the wall where the page is open, "2027-03-05". */
export const todayHere = (): string => new Date().toLocaleDateString('sv-SE');
