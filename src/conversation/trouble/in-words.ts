import type { Found } from '../../diagnosis/trouble.ts';
import type { Diagnosis } from '../../rulebook/diagnosis-schema.ts';

export function percent(probability: number): string {
  return `${Math.round(probability * 100)}\u00a0%`;
}

/** A cause in a few words; its id where the rules no longer have it. */
export function causeName(diagnosis: Diagnosis | undefined, cause: string): string {
  return diagnosis?.causes.find(({ id }) => id === cause)?.name ?? cause;
}

/** A check and what it showed, in the words of the rules. */
export function checkInWords(
  diagnosis: Diagnosis,
  { finding, choice }: Found,
): { asked: string; showed: string } {
  const found = diagnosis.findings.find(({ id }) => id === finding);
  return { asked: found?.short ?? found?.ask ?? finding, showed: found?.choices[choice]?.say ?? choice };
}

export function findingLine(diagnosis: Diagnosis, found: Found): string {
  const { asked, showed } = checkInWords(diagnosis, found);
  return `- ${asked} ${showed}`;
}
