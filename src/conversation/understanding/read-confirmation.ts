import { type Book, hazardOf, questionOf } from '../../rulebook/book.ts';
import { comparable } from '../../rulebook/comparable.ts';
import { judge } from '../../rulebook/three-valued.ts';
import type { Answer, EventBody } from '../events.ts';
import { factTable } from '../facts.ts';
import type { Doubt, State } from '../state.ts';
import { supposing } from '../what-if.ts';
import { answerInWords } from '../wording.ts';
import { readAnswer } from './read-answer.ts';
import type { GallonKind, ReadContext } from './read-context.ts';

const confirms =
  /^(yes|y|yep|yup|yeah|ok|okay|sure|right|correct|exactly|i do|it is|that one|yes please|yes it is|that is right|thats right)[.!]?$/i;
const keeps = /^(keep|keep it|as it stands|as typed)[.!]?$/i;
const rejects = /^(no|n|nope|wrong)[.!]?$/i;
const plainYes = /^yes[.!]?$/i;

/** Whether an answer may clear a DANGER stop: it is then said back and confirmed with a typed yes. */
export function isGuarded(book: Book, state: State, question: string, answer: Answer): boolean {
  const [hold] = state.held;
  if (state.alarm || hold === undefined) return false;
  if (answer.kind === 'not-sure' || answer.kind === 'skipped') return false;
  const { signal, clear } = hazardOf(book, hold.stop);
  if (signal !== 'DANGER') return false;
  const supposed = factTable(supposing(state, question, answer, ''));
  return judge(clear['safe-when'], comparable(book, supposed, state.figures)) !== 'false';
}

function sayGuarded(book: Book, question: string, answer: Answer): string {
  const words = answerInWords(questionOf(book, question), answer);
  return `This clears a DANGER stop. You say: "${words}". Type yes if you have just looked and it is so.`;
}

/** Gives an answer, or, where it may clear a DANGER stop, says it back first. */
export function giveOrGuard(
  book: Book,
  state: State,
  question: string,
  answer: Answer,
  text: string,
): EventBody {
  if (!isGuarded(book, state, question, answer)) return { type: 'AnswerGiven', question, answer, text };
  return { type: 'AnswerDoubted', question, text, says: sayGuarded(book, question, answer), meant: answer };
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
  const give = (answer: Answer) => giveOrGuard(book, state, question, answer, doubt.text);
  if (confirms.test(text)) {
    const asGuarded = giveOrGuard(book, state, question, doubt.meant, doubt.text);
    const guarded = asGuarded.type === 'AnswerDoubted' && asGuarded.says === doubt.says;
    if (guarded && plainYes.test(text))
      return { type: 'AnswerGiven', question, answer: doubt.meant, text: doubt.text };
    if (!either) return asGuarded;
    const { meant } = doubt;
    return {
      type: 'AnswerDoubted',
      question,
      text: doubt.text,
      says: sayEither(either),
      meant,
      either: [...either],
    };
  }
  if (keeps.test(text) && doubt.typed) return give(doubt.typed);
  if (rejects.test(text)) return { type: 'AnswerNotUnderstood', question, text, says: 'Then tell me again.' };
  const named = /^[12]$/.test(text) ? either?.[Number(text) - 1] : either?.find((one) => one.say === text);
  const answer = named?.answer ?? withUnit(book, doubt, text, context);
  return answer && give(answer);
}

export function sayEither(either: readonly { say: string }[]): string {
  return `Which one: ${either.map((one, index) => `${index + 1} ${one.say}`).join(' or ')}?`;
}
