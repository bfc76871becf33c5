/** Team lifting, as a share of the sum of what each can lift alone, by the number of people. */

/** HSE guidance on the Manual Handling Operations Regulations 1992, paragraphs 119 and 120; seen in a secondary page. */
export const teamShares = { 1: 1, 2: 2 / 3, 3: 1 / 2 } as const;
