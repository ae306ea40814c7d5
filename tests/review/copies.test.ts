import { describe, expect, it } from 'vitest';
import type { BatchRow } from '../../src/review/batch-row.ts';
import { Copies } from '../../src/review/copies.ts';

const numbers = { titration: 1.63, dropout: 0, rawSoap: 1240, yield: 96.4 };
const row = (values: BatchRow['values']) => ({ values }) as BatchRow;

function copiesIn(...batches: BatchRow['values'][]) {
  const copies = new Copies();
  for (const [index, values] of batches.entries()) copies.add(row(values), index);
  return copies.all();
}

describe('batches with the same numbers', () => {
  it('are named, each with the first that had them', () => {
    expect(copiesIn(numbers, { ...numbers, soap: 31 }, numbers)).toEqual([{ first: 0, second: 2 }]);
  });

  it('are not named when one number differs in its last digit', () => {
    expect(copiesIn(numbers, { ...numbers, titration: 1.64 })).toEqual([]);
  });

  it('are not named where too little was measured to tell', () => {
    const { dropout: _none, ...three } = numbers;
    expect(copiesIn(three, three)).toEqual([]);
  });
});
