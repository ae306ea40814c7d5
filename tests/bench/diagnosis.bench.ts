import { bench, describe } from 'vitest';
import { beliefs } from '../../src/diagnosis/beliefs.ts';
import { chancesOf } from '../../src/diagnosis/chances.ts';
import { rankChecks } from '../../src/diagnosis/next-check.ts';
import type { Trouble } from '../../src/diagnosis/trouble.ts';
import { rates, ratesInWords } from '../diagnosis/rates.ts';
import { book } from '../rulebook/cases.ts';
import { QUICK } from './quick.ts';

const { diagnosis } = book;
if (!diagnosis) throw new Error('rules/diagnosis is empty');

// How well the checks are chosen, on more cases than the tests draw.
console.log(ratesInWords(rates(diagnosis, 2000)));

const everywhere: Trouble = { found: [], passed: [] };
const open = new Set(diagnosis.gates.map(({ id }) => id));
const { of } = chancesOf(diagnosis);

/** The least that any choice has to do: look at every cell of the table once and take its logarithm. */
function everyCell(): number {
  let sum = 0;
  for (const finding of of)
    for (const row of finding) for (const chance of row) sum += chance * Math.log(chance);
  return sum;
}

// No complaint, no stage, every gate open: no trouble has more checks to choose from. The goal is 16 ms.
describe(`the next check out of ${diagnosis.findings.length}, for ${diagnosis.causes.length} causes`, () => {
  bench('every cell of the table once', () => void everyCell(), QUICK);
  bench(
    'the next check',
    () => {
      rankChecks(diagnosis, everywhere, beliefs(diagnosis, everywhere), open);
    },
    QUICK,
  );
});
