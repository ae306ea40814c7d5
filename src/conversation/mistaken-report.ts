import { type Book, hazardOf } from '../rulebook/book.ts';
import { leavesOf } from '../rulebook/condition.ts';
import type { Answer } from './events.ts';
import type { State } from './state.ts';
import { answerInWords } from './wording.ts';

function reportIn(answer: Answer): string | undefined {
  return answer.kind === 'choice' ? answer.choice : undefined;
}

function saysAllWell(question: string, answer: Answer): boolean {
  return question === 'alarm' && reportIn(answer) === 'all-well';
}

/** What was reported last. */
function lastReport({ past }: State): string | undefined {
  const given = past.findLast(
    ({ question, answer }) => question === 'alarm' && !saysAllWell(question, answer),
  );
  return given && reportIn(given.answer);
}

/** Whether a stop was set off by the last report of trouble, and may be cleared in this session. */
function isOfLastReport(book: Book, state: State, stop: string): boolean {
  const { clear, 'safe-when': safeWhen } = hazardOf(book, stop);
  const report = lastReport(state);
  const names = leavesOf(safeWhen).some(
    ({ fact, operator, value }) => fact === 'alarm' && operator === 'notEqual' && value === report,
  );
  return clear.session !== 'new' && report !== undefined && names;
}

/** Whether "false alarm" means something now: a stop holds that the last report set off. */
export function mayBeMistaken(book: Book, state: State): boolean {
  return state.held.some(({ stop }) => isOfLastReport(book, state, stop));
}

/** Whether an answer would take back a report while the stop that it set off still holds. */
export function wouldTakeBack(book: Book, state: State, question: string, answer: Answer): boolean {
  // While another report is being asked about, "all is well" is about that one, not about the stop that holds.
  return !state.alarm && saysAllWell(question, answer) && mayBeMistaken(book, state);
}

/** Whether it does, which only a typed yes to what was said back can do. */
export function isTakenBack({ doubt }: State, question: string, answer: Answer): boolean {
  return saysAllWell(question, answer) && doubt?.question === question && saysAllWell(question, doubt.meant);
}

/**
 * Whether the report behind a stop was taken back: it never happened. A wait guards against what did happen; a slip
 * of the finger needs none, and whoever would be made to pay for one would not report the next time. A fire is
 * another matter: its stop asks for a new session whatever is said.
 */
export function wasMistaken(book: Book, state: State, stop: string): boolean {
  const alarm = state.answers.alarm?.answer;
  const allWell = alarm !== undefined && saysAllWell('alarm', alarm);
  return state.mistaken && allWell && isOfLastReport(book, state, stop);
}

/** Names what would be taken back, so that one report is never taken for another. */
export function askWhetherMistaken(book: Book, state: State): string {
  const report = lastReport(state);
  const alarm = book.questions.alarm;
  const reported =
    alarm && report !== undefined ? answerInWords(alarm, { kind: 'choice', choice: report }) : 'trouble';
  return `You reported: ${reported}. Look from where you can leave: listen, smell, see. Type yes only if that never was there. If it was there and has stopped, type no: the stop then clears in its own time.`;
}
