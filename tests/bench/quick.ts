/** Short turns: each pair takes a moment, and the ratios are still steady to about a tenth. */
export const QUICK = { time: 40, warmupTime: 10, warmupIterations: 2, iterations: 5 } as const;
