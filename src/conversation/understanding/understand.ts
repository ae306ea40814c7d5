import { type Book, hazardOf, questionOf } from '../../rulebook/book.ts';
import type { Question } from '../../rulebook/rule-schema.ts';
import { troubleAsks } from '../../rulebook/trouble-questions.ts';
import type { Answer, EventBody } from '../events.ts';
import { askWhetherMistaken, mayBeMistaken } from '../mistaken-report.ts';
import type { State } from '../state.ts';
import { showMinutes } from '../time.ts';
import { answerInWords, choicesOf } from '../wording.ts';
import { giveOrGuard, isGuarded } from './guard.ts';
import { isExactly } from './match-words.ts';
import { asAlarm } from './read-alarm.ts';
import { readAnswer } from './read-answer.ts';
import { readChange } from './read-change.ts';
import { namedChoices } from './read-choice.ts';
import { clausesOf, readClauses, saySeveral } from './read-clauses.ts';
import { heldAgainstClock } from './read-clock-order.ts';
import { isPlainYes, readConfirmation, sayEither } from './read-confirmation.ts';
import { contextOf, type GallonKind, type ReadContext } from './read-context.ts';
import { readDescription } from './read-description.ts';
import { heldAgainstExpected } from './read-expected.ts';
import { readRequest, readTrouble } from './read-request.ts';
import { readSame } from './read-same.ts';
import { readWhatIf } from './read-what-if.ts';
import type { Reading } from './reading.ts';
import { isCryInWords, isUrgent, isWordedLike, longestLine } from './urgent.ts';

/** What the outside knows when a line is typed. */
export interface Told {
  /** Minutes of the present wait that have passed. */
  waitedMinutes?: number;
  /** Which gallon is meant, where that was said in advance. */
  gallon?: GallonKind;
  /** The time of day where the maker is, like 14:35. */
  now?: string;
}

const longestAnswer = 400;

/** The words in which the rules offer an answer. */
function wordsOffered(question: Question, answer: Answer): string[] {
  if (answer.kind === 'choice' || answer.kind === 'many') {
    const picked = answer.kind === 'choice' ? [answer.choice] : answer.choices;
    const choices = choicesOf(question).filter((one) => picked.includes(one.id));
    return choices.flatMap((choice) => [choice.say, ...choice.also]);
  }
  if (!('yes-no' in question.answer) || answer.kind !== 'yes-no') return [];
  return [
    answerInWords(question, answer),
    ...(question.answer['yes-no'].also?.[answer.yes ? 'yes' : 'no'] ?? []),
  ];
}

/** Whether a line cries out rather than answers. */
function isCry(question: Question, text: string, reading: Reading): boolean {
  if ('text' in question.answer) return isCryInWords(text);
  if (!isUrgent(text)) return false;
  if ('notUnderstood' in reading) return true;
  return !isWordedLike(text, wordsOffered(question, 'sure' in reading ? reading.sure : reading.meant));
}

function toEvent(book: Book, state: State, question: string, text: string, reading: Reading): EventBody {
  if ('notUnderstood' in reading) {
    return { type: 'AnswerNotUnderstood', question, text, says: reading.notUnderstood };
  }
  if ('sure' in reading) return giveOrGuard(book, state, question, reading.sure, text);
  const { says, meant, typed, either } = reading;
  if (either) {
    return {
      type: 'AnswerDoubted',
      question,
      text,
      says: `${says} ${sayEither(either)}`,
      meant,
      either: [...either],
    };
  }
  const hint = typed ? ' yes / keep / or the right answer.' : ' yes / or the right answer.';
  return { type: 'AnswerDoubted', question, text, says: says + hint, meant, ...(typed ? { typed } : {}) };
}

const falseAlarm =
  /^(?:it (?:is|was) |it's |was |sorry,? )*(?:a |my )?(?:false alarm|mistake|slip|typo|wrong key|nothing wrong|all is well|all well)[.!]?$|^(?:i )?(?:typed|hit|pressed) (?:it |that |the wrong key )?(?:by mistake)?[.!]?$|^(?:nothing happened|it never happened)[.!]?$/i;

/** A report of trouble that never was, while the stop that it set off holds. */
function asMistake(book: Book, state: State, text: string): EventBody | undefined {
  if (state.alarm || !falseAlarm.test(text) || !mayBeMistaken(book, state)) return undefined;
  const meant: Answer = { kind: 'choice', choice: 'all-well' };
  return { type: 'AnswerDoubted', question: 'alarm', text, says: askWhetherMistaken(book, state), meant };
}

/** A stop that only a new session clears: say so rather than nothing. */
function heldUntilLater(book: Book, state: State, text: string): EventBody | undefined {
  const [hold] = state.held;
  if (!hold) return undefined;
  const hazard = hazardOf(book, hold.stop);
  const says = `The batch is held by stop ${hazard.id}: ${hazard.stop} Say pause and leave; I ask again when you come back.`;
  return { type: 'AnswerNotUnderstood', question: hazard.clear.ask[0] ?? hold.stop, text, says };
}

const isReady = /^(?:i am |i'm )?(ready|done|now|go on|back|back again|i looked|i have looked)[.!]?$/i;

function whileWaiting(book: Book, state: State, text: string, waitedMinutes: number): EventBody | undefined {
  const { waiting } = state;
  if (isUrgent(text)) return { type: 'TroubleReported', text };
  if (!waiting) return heldUntilLater(book, state, text);
  const early: EventBody = { type: 'WaitEnded', how: 'early', waitedMinutes };
  if (waiting.pressed && isPlainYes(text)) return early;
  const ready = isReady.test(text) && !waiting.fixed;
  const soon = waitedMinutes < waiting.minutes / 2;
  if (ready && !soon) return early;
  const { question } = waiting;
  if (ready) {
    const passed = Math.floor(waitedMinutes);
    const says = `It has been ${passed} of ${showMinutes(waiting.minutes)}. Type yes to look now anyway.`;
    return { type: 'AnswerNotUnderstood', question, text, says, settles: 'wait' };
  }
  const says = waiting.fixed
    ? 'This wait is for your safety and is not shortened. You may pause and come back.'
    : 'I am waiting with you. Say ready when you have looked, or pause and come back later.';
  return { type: 'AnswerNotUnderstood', question, text, says };
}

/** A line far too long for an answer; its beginning is kept so that the log shows what came. */
function tooLong(state: State, text: string): EventBody | undefined {
  const question = state.asking ?? state.waiting?.question;
  if (isUrgent(text)) return { type: 'TroubleReported', text: `${text.slice(0, longestAnswer)} ...` };
  if (!question) return undefined;
  const says = `That is ${text.length} characters; I can take ${longestLine}. Say it in fewer words, or in several notes.`;
  return { type: 'AnswerNotUnderstood', question, text: `${text.slice(0, longestAnswer)} ...`, says };
}

/** Words that are an offered choice and a request too are asked about. */
function asBoth(book: Book, state: State, text: string, request: EventBody): EventBody {
  const question = state.asking ? questionOf(book, state.asking) : undefined;
  if (!question || /^[?<!~=+]/.test(text) || !isExactly(text, namedChoices(question))) return request;
  const reading = readAnswer(question, text);
  if (!('sure' in reading)) return request;
  // A single key is a request only where it is no choice.
  if (text.length === 1) return giveOrGuard(book, state, question.id, reading.sure, text);
  const words = answerInWords(question, reading.sure);
  const says = `Is "${words}" your answer? yes / or, if you want something beside the question, say it in more words or by its key (? lists them).`;
  return { type: 'AnswerDoubted', question: question.id, text, says, meant: reading.sure };
}

type Settled = Exclude<Reading, { sure: Answer } | { notUnderstood: string }>;

function isEither(reading: Reading): reading is Settled {
  return 'either' in reading && reading.either !== undefined;
}

/** Other readings in a line of which only one can be taken, said back so that none is dropped without a word. */
function sayLeftOut(question: Question, text: string, context: ReadContext): string {
  if (!('quantity' in question.answer)) return '';
  const lost = clausesOf(text).filter(
    (part) => /\d/.test(part) && 'notUnderstood' in readAnswer(question, part, context),
  );
  return lost.map((part) => `"${part}" I leave out: say it again when I ask. `).join('');
}

function asAnswer(book: Book, state: State, id: string, text: string, context: ReadContext): EventBody {
  const question = questionOf(book, id);
  const again = readSame(book, state, id, text);
  if (again) return again;
  const reading: Reading =
    text.length > longestAnswer && !('text' in question.answer)
      ? { notUnderstood: 'That is a long line. Give just the answer; the rest fits in a note.' }
      : heldAgainstClock(
          book,
          state,
          id,
          heldAgainstExpected(book, state, id, readAnswer(question, text, context)),
          context,
        );
  if (isCry(question, text, reading) && !state.alarm) return { type: 'TroubleReported', text };
  const alarm = state.alarm && id === 'alarm' ? asAlarm(book, text, reading) : undefined;
  if (alarm) return alarm;
  const reread = isEither(reading)
    ? { ...reading, says: sayLeftOut(question, text, context) + reading.says }
    : reading;
  const quality = asQualityTrouble(book, state, text, reading);
  if (quality) return quality;
  const several = text.length > longestAnswer ? undefined : readClauses(book, state, id, text, context);
  if (!several || isGuarded(book, state, id, several.answer)) return toEvent(book, state, id, text, reread);
  const says = `${saySeveral(book, id, several)} yes / or the right answer.`;
  const also = several.also.length > 0 ? { also: several.also } : {};
  return { type: 'AnswerDoubted', question: id, text, says, meant: several.answer, ...also };
}

/** At the alarm, words for a trouble of the fuel are no danger: they are taken so once that is confirmed. */
function asQualityTrouble(book: Book, state: State, text: string, reading: Reading): EventBody | undefined {
  if (!state.alarm || !('notUnderstood' in reading) || isUrgent(text) || !book.diagnosis) return undefined;
  if (readDescription(book.diagnosis, text).complaints.length === 0) return undefined;
  const meant: Answer = { kind: 'choice', choice: 'not-right' };
  const says =
    'Nobody is in danger, and it is the oil or the fuel that is not right? yes / or what the danger is.';
  return { type: 'AnswerDoubted', question: 'alarm', text, says, meant };
}

/** Words in front of a description that only say that something is wrong. */
const opening = /^(?:!+|something(?:'s| is|s)? (?:is )?wrong|trouble)\s*[:,.-]?\s*(?:with\s+)?/i;
const leaves = /^(?:leave it|never ?mind|back to the batch)[.!]?$/i;

/** A trouble described in words, unless the words cry for help: then the alarm comes first. */
function asDescription(book: Book, state: State, text: string): EventBody | undefined {
  if (state.alarm || state.held.length > 0) return undefined;
  const asked = state.asking === troubleAsks.words;
  // Where words are asked for, only a bare cry is none; urgent words beside it are kept, and the alarm comes after them.
  if (asked ? isCryInWords(text) : isUrgent(text) || !opening.test(text)) return undefined;
  const words = text.replace(opening, '');
  // The causes are looked at last: they are read from the disk when they are first needed.
  if (words === '' || !book.diagnosis || (asked && (leaves.test(words) || readRequest(words))))
    return undefined;
  const described = readDescription(book.diagnosis, words);
  if (!asked && described.complaints.length === 0 && described.found.length === 0) return undefined;
  return { type: 'TroubleDescribed', text, ...described, ...(isUrgent(text) ? { urgent: true } : {}) };
}

/**
 * What a typed line is: an answer, a doubt to be settled, or something said beside the question.
 * Nothing for an empty line: Enter alone never answers anything.
 */
export function understand(book: Book, state: State, line: string, told: Told = {}): EventBody | undefined {
  const text = line.trim();
  if (text === '' || state.ended) return undefined;
  if (text.length > longestLine) return readTrouble(text.slice(0, longestAnswer)) ?? tooLong(state, text);
  const context = contextOf(state, told.gallon, told.now);
  const first =
    asDescription(book, state, text) ??
    readTrouble(text) ??
    readConfirmation(book, state, text, context) ??
    asMistake(book, state, text);
  if (first) return first;
  const plain = text.replace(/\s+/g, ' ');
  // A stop is not left that way, and at the alarm the same words say that all is well.
  const mayLeave = state.trouble && !state.alarm && state.held.length === 0;
  if (mayLeave && leaves.test(plain)) return { type: 'TroubleLeft' };
  const side = readRequest(plain) ?? readWhatIf(book, state, plain) ?? readChange(book, state, plain);
  const waited = told.waitedMinutes ?? 0;
  if (side?.type === 'RequestMade' && side.request === 'timers')
    return { ...side, about: String(Math.floor(waited)) };
  if (side) return asBoth(book, state, plain, side);
  return state.asking
    ? asAnswer(book, state, state.asking, text, context)
    : whileWaiting(book, state, text, waited);
}
