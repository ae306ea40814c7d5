import type { Diagnosis } from '../rulebook/diagnosis-schema.ts';
import { beliefs, logFactors } from './beliefs.ts';
import type { Found, Trouble } from './trouble.ts';

/** One answer, and how it speaks for a cause against all the others together. */
export interface Evidence extends Found {
  /** Natural logarithm of the likelihood ratio. */
  weight: number;
}

/**
 * How each answer speaks for a cause: its likelihood under the cause over its likelihood under the others,
 * these weighted by how probable each is. The strongest first, whichever way it speaks.
 */
export function evidenceFor(diagnosis: Diagnosis, trouble: Trouble, cause: string): Evidence[] {
  const index = diagnosis.causes.findIndex(({ id }) => id === cause);
  const now = beliefs(diagnosis, trouble);
  // Where no other cause is left to compare with, the others count alike.
  const left = 1 - (now[index] ?? 0);
  const share = (other: number) => (left > 1e-9 ? (now[other] ?? 0) / left : 1 / (now.length - 1));
  return trouble.found
    .map((found, place) => {
      const factors = logFactors(diagnosis, trouble, place);
      let elsewhere = 0;
      for (const [other, factor] of factors.entries())
        if (other !== index) elsewhere += share(other) * Math.exp(factor);
      return { ...found, weight: (factors[index] ?? 0) - Math.log(elsewhere) };
    })
    .sort((one, other) => Math.abs(other.weight) - Math.abs(one.weight));
}

/** A weight in words. Ten to one is strong in anybody's trade; less than five to four says next to nothing. */
export function weightInWords(weight: number): string {
  const size = Math.abs(weight);
  if (size < Math.log(1.25)) return 'says little either way';
  const side = weight > 0 ? 'for' : 'against';
  if (size < Math.log(3)) return `speaks somewhat ${side} it`;
  return size < Math.log(10) ? `speaks ${side} it` : `speaks strongly ${side} it`;
}
