import { describe, expect, it } from 'vitest';
import { isOfTrouble } from '../../src/conversation/trouble/talk-of-trouble.ts';
import { leavesOf } from '../../src/rulebook/condition.ts';
import { troubleAsks } from '../../src/rulebook/trouble-questions.ts';
import { book } from '../rulebook/cases.ts';

const questions = Object.values(book.questions);

/** Said at any question, these mean something to the talk itself; as an answer they would never arrive. */
const reserved = new Set([
  ...['back', 'go back', 'undo', 'change', 'next', 'note', 'calc', 'give up'],
  ...['stop', 'pause', 'later', 'quit', 'exit', 'skip', 'pass'],
  ...['why', 'how', 'where', 'help', 'commands', 'trouble', 'emergency', 'alarm'],
  ...['not sure', 'unsure', 'no idea', 'dunno', 'unknown', 'maybe', 'do not know', 'dont know'],
  ...['cannot see', 'cant see', 'cannot tell', 'cant tell', 'cannot say', 'cant say', 'hard to tell'],
]);

function phrasesOf({ answer }: (typeof questions)[number]): string[] {
  if ('yes-no' in answer) {
    const { yes, no, also } = answer['yes-no'];
    return [yes, no, ...(also?.yes ?? []), ...(also?.no ?? [])];
  }
  const choices = 'choice' in answer ? answer.choice : 'many' in answer ? answer.many : {};
  return Object.values(choices).flatMap(({ say, also }) => [say, ...(also ?? [])]);
}
const usedFacts = new Set(
  [
    ...book.stages.flatMap((stage) => [
      ...stage.advice.flatMap((advice) => leavesOf(advice.when)),
      ...stage.leave.flatMap((leave) => (leave.when ? leavesOf(leave.when) : [])),
    ]),
    ...book.hazards.flatMap((hazard) => [
      ...leavesOf(hazard['safe-when']),
      ...leavesOf(hazard.clear['safe-when']),
    ]),
    ...questions.flatMap((question) => (question.when ? leavesOf(question.when) : [])),
  ].flatMap((leaf) => [
    leaf.fact,
    leaf.fact.replace('status.', ''),
    typeof leaf.value === 'object' && !Array.isArray(leaf.value) ? leaf.value.fact : '',
  ]),
);
const usedInFigures = new Set(
  book.computations
    .flatMap((one) => Object.values(one.with))
    .flatMap((operand) =>
      typeof operand === 'string'
        ? [operand]
        : typeof operand === 'object' && 'fact' in operand
          ? [operand.fact]
          : [],
    ),
);

describe('every question', () => {
  it.each(questions.map((question) => [question.id, question] as const))(
    '%s helps a first-timer in plain words',
    (_id, question) => {
      expect(question.how.split(/\s+/).length).toBeGreaterThanOrEqual(6);
      expect(question.how.length).toBeLessThanOrEqual(700);
      expect(question.ask.length).toBeLessThanOrEqual(220);
    },
  );

  it.each(questions.filter((question) => question.purpose === 'decide').map((question) => question.id))(
    '%s, asked only to decide, is looked at by a rule or a figure',
    (id) => {
      expect(usedFacts.has(id) || usedInFigures.has(id)).toBe(true);
    },
  );

  it('is asked by some stage, clears some stop, is the alarm, or belongs to a trouble', () => {
    const asked = new Set([
      ...book.stages.flatMap((stage) => stage.asks),
      ...book.hazards.flatMap((hazard) => hazard.clear.ask),
      'alarm',
    ]);
    expect(
      questions.map((question) => question.id).filter((id) => !asked.has(id) && !isOfTrouble(id)),
    ).toEqual([]);
  });

  it('offers at most ten choices, one key each, worded differently', () => {
    // The lists of all troubles and of all places are longer; there the number is typed out.
    const longer: string[] = [troubleAsks.complaint, troubleAsks.stage];
    for (const { id, answer } of questions) {
      const choices =
        'choice' in answer
          ? Object.values(answer.choice)
          : 'many' in answer
            ? Object.values(answer.many)
            : [];
      expect(choices.length, id).toBeLessThanOrEqual(longer.includes(id) ? 20 : 10);
      expect(new Set(choices.map((choice) => choice.say)).size, id).toBe(choices.length);
      for (const choice of choices) expect(choice.say.length, `${id}: ${choice.say}`).toBeLessThanOrEqual(70);
    }
  });
});

describe('the words of an answer', () => {
  it('are none that the talk takes for itself', () => {
    const taken = questions.flatMap((question) =>
      phrasesOf(question)
        .filter((phrase) => reserved.has(phrase.toLowerCase().replace(/['’]/g, '')))
        .map((phrase) => `${question.id}: ${phrase}`),
    );
    expect(taken).toEqual([]);
  });
});

describe('words with facts in them', () => {
  const known = new Set([
    ...Object.keys(book.questions),
    ...Object.keys(book.limits).map((id) => `limit.${id}`),
    ...book.computations.flatMap((one) => ('formula' in one ? [one.fact] : Object.keys(one.gives))),
  ]);
  const texts = [
    ...questions.flatMap(({ id, ask, how, short }) =>
      [ask, how, short ?? ''].map((text) => [id, text] as const),
    ),
    ...book.stages.flatMap((stage) =>
      stage.advice.flatMap(
        ({ id, say, because }) =>
          [
            [id, say],
            [id, because],
          ] as const,
      ),
    ),
    ...book.hazards.flatMap(
      ({ id, say, stop, because }) =>
        [
          [id, say],
          [id, stop],
          [id, because],
        ] as const,
    ),
    ...book.computations.map((one) => [one.about, one.say ?? ''] as const),
  ];
  it('name only facts that exist', () => {
    const strangers = texts.flatMap(([id, text]) =>
      [...text.matchAll(/\{([^}]*)\}/g)]
        .filter(([, fact]) => !known.has(fact ?? ''))
        .map(([whole]) => `${id}: ${whole}`),
    );
    expect(strangers).toEqual([]);
  });

  it('leave every threshold to rules/limits: nothing is compared with a bare number but 0', () => {
    for (const stage of book.stages) {
      for (const advice of stage.advice) {
        const bare = leavesOf(advice.when).filter(
          (leaf) => typeof leaf.value === 'number' && leaf.value !== 0,
        );
        expect(bare, `${advice.id} compares with a bare number`).toEqual([]);
      }
    }
  });
});
