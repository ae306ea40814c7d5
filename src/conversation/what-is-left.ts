import { type Book, questionOf, stageOf } from '../rulebook/book.ts';
import { isOpen } from './ask.ts';
import type { State } from './state.ts';
import { minutesIn, showMinutes } from './time.ts';
import { fill } from './wording.ts';

/** Questions listed at most; more would scroll the question away. */
const mostListed = 8;

/** The clock time (UTC) some minutes after a moment, from its digits alone, as it is called so many minutes after it. */
function timeAfter(since: string, minutes: number, passed: number): string {
  const [hour = 0, minute = 0] = since.slice(11, 16).split(':').map(Number);
  const total = hour * 60 + minute + Math.round(minutes);
  const two = (value: number) => String(value).padStart(2, '0');
  const today = Math.floor((hour * 60 + minute + passed) / 1440);
  const days = Math.floor(total / 1440) - today;
  const later = days <= 0 ? '' : days === 1 ? ', the day after' : `, ${days} days after`;
  return `${two(Math.floor(total / 60) % 24)}:${two(total % 60)} UTC${later}`;
}

/** What is being waited for and until when, and the waits that are still to come. */
export function timers(book: Book, state: State, waitedMinutes: number): string {
  const { waiting } = state;
  const later = Object.entries(state.delays)
    .filter(([question]) => question !== waiting?.question && !state.waited.includes(question))
    .map(([question, time]) => {
      const { short, ask } = questionOf(book, question);
      return `Later: ${showMinutes(minutesIn(time))} before I ask "${fill(book, state, short ?? ask)}".`;
    });
  if (!waiting) return ['Nothing is being waited for just now.', ...later].join('\n');
  const left = Math.max(0, Math.ceil(waiting.minutes - waitedMinutes));
  const what = fill(book, state, waiting.for);
  const until = timeAfter(waiting.since, waiting.minutes, waitedMinutes);
  const now = `Waiting ${showMinutes(waiting.minutes)} for: ${what}. ${showMinutes(left)} to go, until ${until}.`;
  const cut = waiting.fixed ? ' A stop asks for this wait; it is not shortened.' : '';
  return [now + cut, ...later].join('\n');
}

/** What this stage may still ask, and the stages that have not been passed. */
export function whatIsLeft(book: Book, state: State): string {
  const stage = stageOf(book, state.stage);
  const open = stage.asks.filter((id) => isOpen(book, state, id));
  const listed = open.slice(0, mostListed).map((id) => {
    const { short, ask } = questionOf(book, id);
    return `- ${fill(book, state, short ?? ask)}`;
  });
  const more = open.length > mostListed ? [`- and ${open.length - mostListed} more`] : [];
  const none = open.length === 0 ? ['- nothing that I know of yet'] : [];
  const after = book.stages.slice(book.stages.indexOf(stage) + 1).map((one) => one.title);
  const rest = after.length > 0 ? `Stages that may follow: ${after.join(', ')}.` : 'This is the last stage.';
  return [`In this stage (${stage.title}) I may still ask:`, ...listed, ...more, ...none, rest].join('\n');
}
