import type { InputUsed } from '../../src/chemistry/calculate.ts';
import type { Calculation, InputValues } from '../../src/chemistry/calculation.ts';
import { OutOfRangeError } from '../../src/chemistry/out-of-range-error.ts';
import { type Random, seeded } from '../random.ts';

/** Normal deviate of spread one, by Box and Muller. */
export function normalFrom(random: Random): () => number {
  return () => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
}

export interface Spread {
  /** Standard deviation of each output. */
  deviations: Record<string, number>;
  /** Share of draws that fell outside a range and were refused. */
  refused: number;
}

function drawn(used: Record<string, InputUsed>, normal: () => number): InputValues {
  return Object.fromEntries(
    Object.entries(used).map(([key, { value, plusMinus }]) => [
      key,
      typeof value === 'number' && plusMinus > 0 ? value + plusMinus * normal() : value,
    ]),
  );
}

/** Runs a calculation on many draws of its inputs, each spread normally by its ±. */
export function monteCarlo(
  calculation: Calculation,
  used: Record<string, InputUsed>,
  draws: number,
  seed: number,
): Spread {
  const normal = normalFrom(seeded(seed));
  const sums: Record<string, { count: number; mean: number; square: number }> = {};
  let refused = 0;
  for (let draw = 0; draw < draws; draw += 1) {
    let outputs: Record<string, number>;
    try {
      outputs = calculation.run(drawn(used, normal));
    } catch (error) {
      if (!(error instanceof OutOfRangeError)) throw error;
      refused += 1;
      continue;
    }
    for (const [key, value] of Object.entries(outputs)) {
      sums[key] ??= { count: 0, mean: 0, square: 0 };
      const sum = sums[key];
      sum.count += 1;
      const away = value - sum.mean;
      sum.mean += away / sum.count;
      sum.square += away * (value - sum.mean);
    }
  }
  const deviations = Object.fromEntries(
    Object.entries(sums).map(([key, { count, square }]) => [key, Math.sqrt(square / (count - 1))]),
  );
  return { deviations, refused: refused / draws };
}
