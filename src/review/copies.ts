import { type BatchRow, measures } from './batch-row.ts';

/** So many measured numbers do not come out alike to the last digit by chance. */
const fewestAlike = 4;

/** Two batches of a folder whose measured numbers are the same to the last digit: read, or remembered? */
export interface Copy {
  first: number;
  second: number;
}

/** Looks for batches with the same numbers while they go by; of each batch only its numbers are kept, as one word. */
export class Copies {
  private readonly seen = new Map<string, number>();
  private readonly found: Copy[] = [];

  add({ values }: BatchRow, index: number): void {
    const known = measures.filter((measure) => values[measure] !== undefined);
    if (known.length < fewestAlike) return;
    const word = known.map((measure) => `${measure}=${values[measure]}`).join(' ');
    const first = this.seen.get(word);
    if (first === undefined) this.seen.set(word, index);
    else this.found.push({ first, second: index });
  }

  all(): readonly Copy[] {
    return this.found;
  }
}
