/** Signal words of ANSI Z535, worst first. */
export const signals = ['DANGER', 'WARNING', 'CAUTION', 'NOTICE'] as const;

export type Signal = (typeof signals)[number];
