import { type Book, hazardOf, questionOf } from '../rulebook/book.ts';
import { comparable } from '../rulebook/comparable.ts';
import { judge } from '../rulebook/three-valued.ts';
import type { Answer, EventBody, RequestKind } from './events.ts';
import { factTable } from './facts.ts';
import { readAnswer } from './read-answer.ts';
import { readChange } from './read-change.ts';
import { readWhatIf } from './read-what-if.ts';
import type { Reading } from './reading.ts';
import type { State } from './state.ts';
import { supposing } from './what-if.ts';
import { answerInWords } from './wording.ts';

interface Phrase {
  pattern: RegExp;
  request: RequestKind;
}

const requests: Phrase[] = [
  { pattern: /^(\?|help|what can i say|commands)$/i, request: 'what-can-i-say' },
  { pattern: /^(how|how to|how do i( do (this|that|it))?|show me how)\s*\??$/i, request: 'how-to' },
  { pattern: /^(why|why do you ask( (this|that))?|what for)\s*\??$/i, request: 'why-ask' },
  {
    pattern: /^how (?:did you (?:get|work out)|do you know)\s*(?<about>.*?)\s*\??$/i,
    request: 'how-worked-out',
  },
  {
    pattern:
      /^(?:what is|whats|what's|what does|explain)\s+(?:an?\s+|the\s+)?(?<about>.+?)(?:\s+mean)?\s*\??$/i,
    request: 'word',
  },
  { pattern: /^(where|where am i|what is left|whats left|what's left|how far)\s*\??$/i, request: 'where' },
];

function asRequest(text: string): EventBody | undefined {
  for (const { pattern, request } of requests) {
    const found = pattern.exec(text);
    if (!found) continue;
    const about = found.groups?.about?.replace(/^(that|this|it)$/i, '');
    return about ? { type: 'RequestMade', request, about } : { type: 'RequestMade', request };
  }
  return undefined;
}

/** Things that can be said at any question. Trouble comes first, whatever is being asked. */
function asSideLine(text: string): EventBody | undefined {
  if (
    /^(!+|something('s| is|s)? (is )?wrong|trouble|emergency|alarm)\b/i.test(text) ||
    text.startsWith('!')
  ) {
    return { type: 'TroubleReported', text };
  }
  const note = /^note:?\s+(?<words>.+)$/is.exec(text)?.groups?.words;
  if (note) return { type: 'NoteMade', text: note };
  if (/^(back|go back|undo|<)$/i.test(text)) return { type: 'AnswerWithdrawn' };
  if (/^(pause|stop|stop for (now|today)|quit|exit|later)$/i.test(text)) return { type: 'SessionPaused' };
  const sum = /^calc\s+(?<about>.+)$/i.exec(text)?.groups?.about;
  if (sum) return { type: 'RequestMade', request: 'calculate', about: sum };
  const giveUp = /^give up(?: (?:this|the) batch)?(?:[:,]\s*(?<reason>.*))?$/i.exec(text);
  if (giveUp) return { type: 'BatchGivenUp', reason: giveUp.groups?.reason ?? '' };
  return asRequest(text);
}

/** Words that nobody types calmly: they open the alarm unless they are a plain answer to what is asked. */
const urgent =
  /\b(fire|flames?|burning|explo(?:sion|ded)|help me|hurt|injured|splashed|swallowed|collapsed|fainted|dizzy|cant breathe)\b/i;

function isUrgent(text: string): boolean {
  return urgent.test(text.replace(/['’]/g, ''));
}

const confirms = /^(yes|y|yep|yeah|right|correct|i do|that one)[.!]?$/i;
const keeps = /^(keep|keep it|as it stands|as typed)[.!]?$/i;
const rejects = /^(no|n|nope|wrong)[.!]?$/i;

function resolveDoubt(state: State, text: string): EventBody | undefined {
  const { doubt } = state;
  if (!doubt) return undefined;
  const give = (answer: Answer): EventBody => ({
    type: 'AnswerGiven',
    question: doubt.question,
    answer,
    text: doubt.text,
  });
  if (confirms.test(text)) return give(doubt.meant);
  if (keeps.test(text) && doubt.typed) return give(doubt.typed);
  if (rejects.test(text)) {
    return { type: 'AnswerNotUnderstood', question: doubt.question, text, says: 'Then tell me again.' };
  }
  return undefined;
}

/** Answers that may clear a DANGER stop are said back and confirmed with a typed yes; others need no such care. */
function isGuarded(book: Book, state: State, question: string, answer: Answer): boolean {
  const [hold] = state.held;
  if (state.alarm || hold === undefined) return false;
  if (answer.kind === 'not-sure' || answer.kind === 'skipped') return false;
  const { signal, clear } = hazardOf(book, hold.stop);
  if (signal !== 'DANGER') return false;
  const supposed = factTable(supposing(state, question, answer, ''));
  return judge(clear['safe-when'], comparable(book, supposed, state.figures)) !== 'false';
}

function toEvent(book: Book, state: State, question: string, text: string, reading: Reading): EventBody {
  if ('notUnderstood' in reading) {
    return { type: 'AnswerNotUnderstood', question, text, says: reading.notUnderstood };
  }
  if ('sure' in reading) {
    if (!isGuarded(book, state, question, reading.sure)) {
      return { type: 'AnswerGiven', question, answer: reading.sure, text };
    }
    const words = answerInWords(questionOf(book, question), reading.sure);
    const says = `This clears a DANGER stop. You say: "${words}". Type yes if you have just looked and it is so.`;
    return { type: 'AnswerDoubted', question, text, says, meant: reading.sure };
  }
  const { says, meant, typed } = reading;
  const hint = typed ? ' yes / keep / or the right answer.' : ' yes / or the right answer.';
  return { type: 'AnswerDoubted', question, text, says: says + hint, meant, ...(typed ? { typed } : {}) };
}

/** A stop that only a new session clears: say so rather than nothing. */
function heldUntilLater(book: Book, state: State, text: string): EventBody | undefined {
  const [hold] = state.held;
  if (!hold) return undefined;
  const hazard = hazardOf(book, hold.stop);
  const says = `The batch is held by stop ${hazard.id}: ${hazard.stop} Say pause and leave; I ask again when you come back.`;
  return { type: 'AnswerNotUnderstood', question: hazard.clear.ask[0] ?? hold.stop, text, says };
}

/**
 * What a typed line is: an answer, a doubt to be settled, or something said beside the question.
 * Nothing for an empty line: Enter alone never answers anything.
 * @param waitedMinutes  minutes of the present wait that have passed, for "ready" said early
 */
export function understand(book: Book, state: State, line: string, waitedMinutes = 0): EventBody | undefined {
  const text = line.trim();
  if (text === '' || state.ended) return undefined;
  const side = asSideLine(text) ?? readWhatIf(book, state, text) ?? readChange(book, state, text);
  if (side) return side;
  const settled = resolveDoubt(state, text);
  if (settled) return settled;
  const { asking, waiting } = state;
  if (asking) {
    const question = questionOf(book, asking);
    const reading = readAnswer(question, text);
    const misread =
      'notUnderstood' in reading || ('text' in question.answer && /^[a-z ]{3,20}!*$/i.test(text));
    if (misread && isUrgent(text) && !state.alarm) return { type: 'TroubleReported', text };
    return toEvent(book, state, asking, text, reading);
  }
  if (isUrgent(text)) return { type: 'TroubleReported', text };
  if (!waiting) return heldUntilLater(book, state, text);
  if (/^(ready|done|now|go on|i am back|back again)[.!]?$/i.test(text) && !waiting.fixed) {
    return { type: 'WaitEnded', how: 'early', waitedMinutes };
  }
  const says = waiting.fixed
    ? 'This wait is part of a stop and is not shortened. You may pause and come back.'
    : 'I am waiting with you. Say ready when you have looked, or pause and come back later.';
  return { type: 'AnswerNotUnderstood', question: waiting.question, text, says };
}
