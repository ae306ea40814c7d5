import type { Figure, Occasion } from '../rulebook/evaluation.ts';

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

/** An occasion with the minutes of every answer among its facts. */
export function withMinutes(occasion: Occasion): Occasion {
  const { since, answeredAt = {} } = occasion.facts;
  if (!since) return occasion;
  const values = { ...occasion.facts.values, ...minutesFacts(since, answeredAt) };
  return { ...occasion, facts: { ...occasion.facts, values } };
}
