import { readClock } from '../quantity/read-clock.ts';
import type { Question } from '../rulebook/rule-schema.ts';
import type { Answer } from './events.ts';
import { isExactly, normal } from './match-words.ts';
import { namedChoices, readChoice, readMany, readYesNo } from './read-choice.ts';
import { readMeasure } from './read-measure.ts';
import { bare, type Reading } from './reading.ts';

const unsure =
  /^(not (really )?sure|unsure|no idea|dunno|dont know|do not know|cant (tell|see|say)|cannot (tell|see|say)|hard to (tell|say)|maybe)$/;
const skip = /^(skip|pass|next|leave empty|none given)$/;
function readTime(text: string): Reading {
  const clock = readClock(text);
  if ('problem' in clock) return { notUnderstood: clock.problem };
  const time = (hour: number) => `${String(hour).padStart(2, '0')}:${String(clock.minute).padStart(2, '0')}`;
  const answer: Answer = { kind: 'clock', time: time(clock.hour) };
  if (!clock.ambiguous12h) return { sure: answer };
  const afternoon: Answer = { kind: 'clock', time: time((clock.hour % 12) + 12) };
  return { says: `Is that ${afternoon.time}? Say keep for ${answer.time}.`, meant: afternoon, typed: answer };
}

/** Takes a typed line as the answer to a question; what is doubtful is asked about, never guessed. */
export function readAnswer(question: Question, text: string): Reading {
  const typed = bare(text);
  const offered = isExactly(text, namedChoices(question));
  if (!offered && unsure.test(typed)) return { sure: { kind: 'not-sure' } };
  if (!offered && skip.test(typed)) return { sure: { kind: 'skipped' } };
  const { answer } = question;
  if ('choice' in answer) return readChoice(question, text);
  if ('many' in answer) return readMany(question, text);
  if ('yes-no' in answer) return readYesNo(question, text);
  if ('quantity' in answer) return readMeasure(answer.quantity, text);
  if ('duration' in answer) return readMeasure({ unit: 'min', ...answer.duration }, text);
  if ('clock' in answer) return readTime(text);
  const kept = text.trim();
  return kept === '' || normal(kept) === ''
    ? { notUnderstood: 'I take a few words.' }
    : { sure: { kind: 'text', text: kept } };
}
