// How much can be written where: a version's name as the program keeps it, and of
// a piece what the sheet can show.

/** Unit: letters. */
export const LONGEST = { version: 60, title: 80, note: 200 } as const;
