import { bench, describe } from 'vitest';
import { comparable } from '../../src/rulebook/comparable.ts';
import { conditionsOf, evaluate } from '../../src/rulebook/evaluate.ts';
import type { Occasion } from '../../src/rulebook/evaluation.ts';
import { judge } from '../../src/rulebook/three-valued.ts';
import { book, cases, factsGiven } from '../rulebook/cases.ts';
import { QUICK } from './quick.ts';

/** Everything that the example cases of a stage answer, the first word on each fact counting. */
function answersAt(stage: string) {
  const own = cases.filter(({ file }) => file === `stages/${stage}.cases.yaml`);
  return factsGiven(book, Object.assign({}, ...own.map(({ given }) => given).reverse()));
}

// The floor is our own evaluator over the same conditions: what the engine, the figures and the traces add.
for (const { stage } of book.stages) {
  const facts = answersAt(stage);
  const occasion: Occasion = { stage, facts, figures: {}, held: [], explained: [] };
  const known = comparable(book, facts, {});
  const conditions = conditionsOf(book, stage, []).map(({ condition }) => condition);
  describe(`${stage}, ${conditions.length} conditions`, () => {
    bench(
      'three-valued evaluator alone',
      () => {
        for (const condition of conditions) judge(condition, known);
      },
      QUICK,
    );
    bench(
      'the whole evaluation of the stage',
      async () => {
        await evaluate(book, occasion);
      },
      QUICK,
    );
  });
}
