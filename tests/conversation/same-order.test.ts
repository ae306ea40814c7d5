import { describe, expect, it } from 'vitest';
import { choicesOf } from '../../src/conversation/wording.ts';
import { stageOf } from '../../src/rulebook/book.ts';
import { book } from '../rulebook/cases.ts';

/** Looks of the same kind: most of their choices are the same. Common practice, no source. */
const sameKind = 3;

const asked = book.stages
  .flatMap(({ stage }) => stageOf(book, stage).asks)
  .map((id) => book.questions[id])
  .flatMap((question) => (question && choicesOf(question).length > 0 ? [question] : []));

describe('the same look offers its choices in the same order everywhere', () => {
  const pairs = asked.flatMap((one, at) =>
    asked.slice(at + 1).flatMap((other) => {
      const [first, second] = [choicesOf(one), choicesOf(other)].map((choices) =>
        choices.map(({ id }) => id),
      );
      const shared = (first ?? []).filter((id) => second?.includes(id));
      return shared.length < sameKind ? [] : [[one.id, other.id, shared, second ?? []] as const];
    }),
  );

  it('has such looks', () => expect(pairs.length).toBeGreaterThan(3));

  it.each(pairs)('%s and %s', (_one, _other, shared, second) => {
    expect(second.filter((id) => shared.includes(id))).toEqual(shared);
  });
});
