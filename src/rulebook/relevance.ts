import { type Book, factsUsedBy, questionOf, stageOf } from './book.ts';
import type { Condition } from './condition.ts';
import { rootsOf, rootsOfCondition } from './roots.ts';

const perBook = new WeakMap<Book, Map<string, Set<string>>>();

/** Every condition that a stage file holds. */
function conditionsIn(book: Book, stageId: string): Condition[] {
  const stage = stageOf(book, stageId);
  return [
    ...stage.advice.map((advice) => advice.when),
    ...stage.leave.flatMap((leave) => leave.when ?? []),
    ...(stage['unsafe-to-leave'] ?? []).map((note) => note.when),
    ...stage.asks.flatMap((id) => questionOf(book, id).when ?? []),
  ];
}

function findUsers(book: Book): Map<string, Set<string>> {
  const users = new Map<string, Set<string>>();
  const add = (question: string, user: string) => {
    users.set(question, (users.get(question) ?? new Set()).add(user));
  };
  for (const { stage } of book.stages) {
    for (const condition of conditionsIn(book, stage)) {
      for (const question of rootsOfCondition(book, condition)) add(question, stage);
    }
  }
  for (const hazard of book.hazards) {
    for (const question of rootsOfCondition(book, hazard['safe-when'])) add(question, `stop ${hazard.id}`);
  }
  for (const computation of book.computations) {
    // A figure that is told, or used by who knows which stage, needs its inputs.
    for (const fact of factsUsedBy(computation))
      for (const question of rootsOf(book, fact)) add(question, 'figures');
  }
  return users;
}

/** Whether stops, figures or other stages look at a question, so that it is needed whatever this stage decides. */
export function isNeededElsewhere(book: Book, stage: string, question: string): boolean {
  const users = perBook.get(book) ?? findUsers(book);
  perBook.set(book, users);
  return [...(users.get(question) ?? [])].some((user) => user !== stage);
}

/**
 * The open questions of a stage that only serve to decide, and that still can: some condition hangs on them, or
 * something beyond the stage needs them. The others need not be asked.
 * @param hanging  facts that undecided conditions still wait for
 */
export function stillDeciding(
  book: Book,
  stage: string,
  answered: (id: string) => boolean,
  hanging: readonly string[],
): string[] {
  const roots = new Set(hanging.flatMap((fact) => rootsOf(book, fact)));
  return stageOf(book, stage).asks.filter(
    (id) =>
      questionOf(book, id).purpose === 'decide' &&
      !answered(id) &&
      (roots.has(id) || isNeededElsewhere(book, stage, id)),
  );
}
