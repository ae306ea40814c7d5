import { type Book, questionOf } from '../../rulebook/book.ts';
import type { Answer, EventBody } from '../events.ts';
import type { Doubt, State } from '../state.ts';
import { giveOrGuard } from './guard.ts';
import { readAnswer } from './read-answer.ts';
import type { GallonKind, ReadContext } from './read-context.ts';

const confirms =
  /^(yes|y|yep|yup|yeah|ok|okay|sure|right|correct|exactly|i do|it is|that one|yes please|that is right|thats right)[.!]?$/i;
const keeps = /^(keep|keep it|as it stands|as typed)[.!]?$/i;
const rejects = /^(no|n|nope|wrong)[.!]?$/i;
/** A yes written out, with nothing behind it that could take it back. */
const plainYes =
  /^yes[,.]?( (it is|it is so|it's so|all done|all of it|all so|all of it is so|done|i did|i do|i have|i have looked|i've looked|i looked|i looked again|now|ready|anyway|look now|that is so|that's so))?[.!]?$/i;

export function isPlainYes(text: string): boolean {
  return plainYes.test(text);
}

const unitsAlone =
  /^(in\s+)?(°?\s*[cf]|celsius|fahrenheit|l|lit(re|er)s?|gal|gallons?|m|met(re|er)s?|ft|feet|kpa|psi|kg|kilos?|lb|pounds?)[.!]?$/i;
const gallonWords: { pattern: RegExp; gallon: GallonKind }[] = [
  { pattern: /^(us|u\.s\.|usa|american|us gal(lons?)?)[.!]?$/i, gallon: 'US' },
  { pattern: /^(imperial|imp|uk|british|imperial gal(lons?)?)[.!]?$/i, gallon: 'imperial' },
];

/** The doubted line again, with the unit that was missing. */
function withUnit(book: Book, doubt: Doubt, text: string, context: ReadContext): Answer | undefined {
  const question = questionOf(book, doubt.question);
  const said = gallonWords.find(({ pattern }) => pattern.test(text))?.gallon;
  const reading = said
    ? readAnswer(question, doubt.text, { ...context, gallon: said })
    : unitsAlone.test(text)
      ? readAnswer(question, `${doubt.text} ${text.replace(/^in\s+/i, '')}`, context)
      : undefined;
  return reading && 'sure' in reading ? reading.sure : undefined;
}

function sayRejected(state: State, { question, changes }: Doubt): string {
  if (question === 'alarm' && !state.alarm) return 'Then the stop stays.';
  return changes ? 'Then it stays as it was.' : 'Then tell me again.';
}

function settled({ question, text, changes }: Doubt, answer: Answer): EventBody {
  return { type: changes ? 'AnswerChanged' : 'AnswerGiven', question, answer, text };
}

/** Settles what was asked back: yes, keep, no, one of the two, or the unit that was missing. */
export function readConfirmation(
  book: Book,
  state: State,
  text: string,
  context: ReadContext,
): EventBody | undefined {
  const { doubt } = state;
  if (!doubt) return undefined;
  const { question, either } = doubt;
  const give = (answer: Answer) => giveOrGuard(book, state, question, answer, doubt.text, doubt.changes);
  if (confirms.test(text) || plainYes.test(text)) {
    const asGuarded = give(doubt.meant);
    const guarded = asGuarded.type === 'AnswerDoubted' && asGuarded.says === doubt.says;
    if (guarded && plainYes.test(text)) return settled(doubt, doubt.meant);
    if (!either) return asGuarded;
    const { meant } = doubt;
    return {
      type: 'AnswerDoubted',
      question,
      text: doubt.text,
      says: sayEither(either),
      meant,
      either: [...either],
      ...(doubt.changes ? { changes: true } : {}),
    };
  }
  if (keeps.test(text) && doubt.typed) return give(doubt.typed);
  if (rejects.test(text)) {
    return { type: 'AnswerNotUnderstood', question, text, says: sayRejected(state, doubt) };
  }
  const named = /^[12]$/.test(text) ? either?.[Number(text) - 1] : either?.find((one) => one.say === text);
  const answer = named?.answer ?? withUnit(book, doubt, text, context);
  return answer && give(answer);
}

export function sayEither(either: readonly { say: string }[]): string {
  return `Which one: ${either.map((one, index) => `${index + 1} ${one.say}`).join(' or ')}?`;
}
