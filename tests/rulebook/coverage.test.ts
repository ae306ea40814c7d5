import { describe, expect, it } from 'vitest';
import { coverageMistakes, coverageText } from '../../src/rulebook/coverage.ts';
import { book, decisions } from './cases.ts';

describe('the decisions of the trade', () => {
  it('are each made by a rule, or left out with a reason', () => {
    expect(coverageMistakes(book, decisions)).toEqual([]);
  });

  it('are listed for every stage', () => {
    expect(decisions.map((one) => one.stage).sort()).toEqual(book.stages.map((stage) => stage.stage).sort());
  });

  it('hold all of the stops R01 to R28', () => {
    const wanted = Array.from({ length: 28 }, (_none, index) => `R${String(index + 1).padStart(2, '0')}`);
    expect(book.hazards.map((hazard) => hazard.id)).toEqual(expect.arrayContaining(wanted));
  });

  it('stand in docs/coverage.md as the rule files have them', async () => {
    await expect(coverageText(book, decisions)).toMatchFileSnapshot('../../docs/coverage.md');
  });
});
