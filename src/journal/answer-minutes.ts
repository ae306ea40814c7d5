import type { Figure } from '../rulebook/evaluation.ts';

const minuteMs = 60_000;

/** For every answer the minutes from the opening of the batch to it, as the fact `minutes.QUESTION`. Times are UTC. */
export function minutesFacts(
  since: string,
  answeredAt: Readonly<Record<string, string>>,
): Record<string, Figure> {
  const opened = Date.parse(since);
  return Object.fromEntries(
    Object.entries(answeredAt).map(([question, at]) => {
      const value = (Date.parse(at) - opened) / minuteMs;
      return [`minutes.${question}`, { value, unit: 'min' as const, plusMinus: 0 }];
    }),
  );
}
