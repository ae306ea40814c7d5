import { readClock } from '../../quantity/read-clock.ts';
import type { Question } from '../../rulebook/rule-schema.ts';
import type { Answer } from '../events.ts';
import { answerInWords } from '../wording.ts';
import { minutesFrom } from './clock-time.ts';
import { isExactly, normal } from './match-words.ts';
import { namedChoices, readChoice } from './read-choice.ts';
import { noContext, type ReadContext } from './read-context.ts';
import { isAsked, isNotReadNow } from './read-doubtful.ts';
import { readMany } from './read-many.ts';
import { type Measure, readMeasure } from './read-measure.ts';
import { readYesNo } from './read-yes-no.ts';
import { bare, type Reading } from './reading.ts';

const unsure =
  /^(im )?((really )?not (really |quite |so |too |very )?(sure|certain)|unsure|uncertain|no (idea|clue)|dunno|idk|i ?d k|i?( really)? ?(dont|do not) (really )?(know|remember|recall)( really)?|i? ?(cant|cannot|could not|couldnt) (really )?(tell|see|say|remember)|(hard|difficult|impossible) to (tell|say|see)|maybe|unknown|i? ?(havent|did not|didnt|have not) (looked|checked|measured|look|check|measure)( it| yet)?)$/;
const skip = /^(skip( (it|this|this one|that))?|pass|next|leave (it )?empty|left empty|none given)$/;

const hoursPast = 6;

function isJustPast(time: string, now: string): boolean {
  const ago = minutesFrom(time, now);
  return ago >= 0 && ago <= hoursPast * 60;
}

const rightNow = /^(it is |its )?(right |just )?now$/;

function readTime(text: string, now: string | undefined): Reading {
  if (now && rightNow.test(bare(text))) return { sure: { kind: 'clock', time: now } };
  const clock = readClock(text);
  if ('problem' in clock) return { notUnderstood: clock.problem };
  const time = (hour: number) => `${String(hour).padStart(2, '0')}:${String(clock.minute).padStart(2, '0')}`;
  const answer: Answer = { kind: 'clock', time: time(clock.hour) };
  // Four digits, as 07:10 or 11:15, is how a 24-hour clock is written.
  const written24h = /^\d\d:?\d\d$/.test(text.trim());
  if (clock.ambiguous12h && !written24h) {
    const afternoon: Answer = { kind: 'clock', time: time((clock.hour % 12) + 12) };
    const morning = time(clock.hour % 12);
    // What has happened lies behind: of two times of day the one that is just past is meant.
    if (now && isJustPast(morning, now)) return { sure: { kind: 'clock', time: morning } };
    if (now && isJustPast(afternoon.time, now)) return { sure: afternoon };
    return {
      says: `Is that ${afternoon.time}? Say keep for ${answer.time}.`,
      meant: afternoon,
      typed: answer,
    };
  }
  const off = isNotReadNow(text) || /\b(after|before|since|between|past|or)\b/i.test(text);
  const spoken = /\b(quarter|half|ten|five|twenty)\b/i.test(text) && !isNotReadNow(text);
  return off && !spoken ? { says: `Was it at ${answer.time}?`, meant: answer } : { sure: answer };
}

function measureOf(question: Question): Measure | undefined {
  const { answer, ask, short = '', how, id } = question;
  const about = new Set(normal(`${ask} ${short} ${how} ${id.replaceAll('-', ' ')}`).split(' '));
  const words = { asked: `${ask} ${short}`, about };
  if ('quantity' in answer) return { ...answer.quantity, ...words };
  return 'duration' in answer ? { unit: 'min', ...answer.duration, ...words } : undefined;
}

/** Words that ask rather than tell, where any words are an answer. */
const asksBack =
  /\?\s*$|^(?:why|how|what|when|where|which|who|can|could|should|do|does|must|may|is|are)\b.*\b(?:i|you|we|me|this|that|it)\b(?!.*\b(?:said|told)\b)/i;

function readKind(question: Question, text: string, context: ReadContext): Reading {
  const { answer } = question;
  if ('choice' in answer) return readChoice(question, text);
  if ('many' in answer) return readMany(question, text);
  if ('yes-no' in answer) return readYesNo(question, text);
  if ('clock' in answer) return readTime(text, context.now);
  const measure = measureOf(question);
  if (measure) return readMeasure(measure, text, context);
  const kept = text.trim();
  if (asksBack.test(kept)) {
    const says =
      'That sounds like a question to me; why and how are answered any time. Shall I write it down?';
    return { says, meant: { kind: 'text', text: kept } };
  }
  return /[\p{L}\p{N}]/u.test(kept)
    ? { sure: { kind: 'text', text: kept } }
    : { notUnderstood: 'I take a few words.' };
}

/** Takes a typed line as the answer to a question; what is doubtful is asked about, never guessed. */
export function readAnswer(question: Question, text: string, context: ReadContext = noContext): Reading {
  const typed = bare(text);
  const offered = isExactly(text, namedChoices(question));
  if (!offered && unsure.test(typed)) return { sure: { kind: 'not-sure' } };
  if (!offered && skip.test(typed)) return { sure: { kind: 'skipped' } };
  const reading = readKind(question, text, context);
  if (!('sure' in reading) || 'text' in question.answer || !isAsked(text)) return reading;
  return { says: `Is it so: ${answerInWords(question, reading.sure)}?`, meant: reading.sure };
}
