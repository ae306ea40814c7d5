import type { Plain } from '../rulebook/condition.ts';
import type { AnswerStatus, FactTable, Figure } from '../rulebook/evaluation.ts';
import type { Answer } from './events.ts';
import type { State } from './state.ts';

/** The fact that an answer gives; nothing where the maker did not know. */
export function factOf(answer: Answer): Plain | Figure | undefined {
  switch (answer.kind) {
    case 'choice':
      return answer.choice;
    case 'many':
      return answer.choices;
    case 'quantity':
      return { value: answer.value, unit: answer.unit, plusMinus: answer.plusMinus };
    case 'yes-no':
      return answer.yes;
    case 'clock':
      return answer.time;
    case 'text':
      return answer.text;
    default:
      return undefined;
  }
}

export function statusOf(answer: Answer): AnswerStatus {
  if (answer.kind === 'not-sure' || answer.kind === 'skipped') return answer.kind;
  return 'known';
}

function answerTimes(state: State): Record<string, string> {
  return Object.fromEntries(Object.entries(state.answers).map(([question, { at }]) => [question, at]));
}

export function factTable(state: State): FactTable {
  const values: Record<string, Plain | Figure | undefined> = {};
  const status: Record<string, AnswerStatus> = {};
  for (const [question, answered] of Object.entries(state.answers)) {
    values[question] = factOf(answered.answer);
    status[question] = answered.status;
  }
  return { values, status, since: state.openedAt, answeredAt: answerTimes(state) };
}
