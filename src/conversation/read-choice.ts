import type { Question } from '../rulebook/rule-schema.ts';
import type { Answer } from './events.ts';
import { matchWords, type Named } from './match-words.ts';
import { bare, type Reading } from './reading.ts';
import { choicesOf } from './wording.ts';

const negation = /\b(no|not|never|none|without|isnt|arent|wasnt|dont|doesnt|nothing)\b/;
/** Words that take part of an answer back, and words that only half mean it. */
const excepts = /\b(but|except|apart from|besides|other than|without)\b/;
const hedges =
  /\b(probably|maybe|perhaps|think|guess|hope|should|supposed|mostly|nearly|almost|kind of|sort of|more or less)\b/;
const yesWords = ['yes', 'y', 'yep', 'yeah', 'sure', 'true', 'done', 'ok', 'correct', 'affirmative'];
const noWords = ['no', 'n', 'nope', 'nah', 'false', 'not yet', 'negative'];

function listChoices(question: Question): string {
  return choicesOf(question)
    .map((choice, index) => `${index + 1} ${choice.say}`)
    .join(', ');
}

export function namedChoices(question: Question): Named[] {
  return choicesOf(question).map(({ id, say, also }) => ({
    id,
    words: [say, id.replaceAll('-', ' '), ...also],
  }));
}

/** A negated line matches a choice only if that choice is itself worded so: "not clear yet" is not "clear". */
function isDenied(text: string, named: Named | undefined): boolean {
  return negation.test(bare(text)) && !named?.words.some((word) => negation.test(bare(word)));
}

function wordedWith(words: RegExp, text: string, named: Named | undefined): boolean {
  return words.test(bare(text)) && !named?.words.some((word) => words.test(bare(word)));
}

/** "All but the face shield" is not "all of it". */
const takesBack = (text: string, named: Named | undefined) => wordedWith(excepts, text, named);

/** "Probably covered" is not "covered". */
const isHedged = (text: string, named: Named | undefined) => wordedWith(hedges, text, named);

export function readChoice(question: Question, text: string): Reading {
  const choices = choicesOf(question);
  const number = /^#?(\d{1,2})[.)]?$/.exec(text.trim())?.[1];
  if (number !== undefined) {
    const picked = choices[Number(number) - 1];
    if (picked) return { sure: { kind: 'choice', choice: picked.id } };
    return { notUnderstood: `There is no choice ${number}. The choices: ${listChoices(question)}.` };
  }
  const named = namedChoices(question);
  const match = matchWords(text, named);
  const sayOf = (id: string) => choices.find((choice) => choice.id === id)?.say ?? id;
  if ('certain' in match) {
    const answer: Answer = { kind: 'choice', choice: match.certain };
    const found = named.find((one) => one.id === match.certain);
    if (takesBack(text, found)) {
      return {
        notUnderstood: `You leave something out of "${sayOf(match.certain)}". Which is it: ${listChoices(question)}?`,
      };
    }
    if (isHedged(text, found)) {
      return { says: `"${sayOf(match.certain)}": have you looked, and is it so?`, meant: answer };
    }
    if (!isDenied(text, found)) return { sure: answer };
    return { notUnderstood: `"${text.trim()}" says what it is not. Which is it: ${listChoices(question)}?` };
  }
  const [first] = 'maybe' in match ? match.maybe : [];
  if (
    'maybe' in match &&
    match.maybe.length === 1 &&
    first &&
    !isDenied(
      text,
      named.find((one) => one.id === first),
    )
  ) {
    return { says: `Did you mean "${sayOf(first)}"?`, meant: { kind: 'choice', choice: first } };
  }
  if ('maybe' in match && match.maybe.length > 1) {
    return { notUnderstood: `Several fit: ${match.maybe.map(sayOf).join(', ')}. Which one?` };
  }
  return { notUnderstood: `I take one of: ${listChoices(question)}. Or say "not sure".` };
}

export function readMany(question: Question, text: string): Reading {
  const choices = choicesOf(question);
  if (/^(none|nothing|no|none of (these|them))$/.test(bare(text)))
    return { sure: { kind: 'many', choices: [] } };
  const parts = text
    .split(/,|;|\band\b|\+|&/)
    .map((part) => part.trim())
    .filter((part) => part !== '');
  const picked: string[] = [];
  for (const part of parts) {
    const one = readChoice(question, part);
    if (!('sure' in one) || one.sure.kind !== 'choice')
      return {
        notUnderstood: `I take any of: ${choices.map((choice, index) => `${index + 1} ${choice.say}`).join(', ')}; or "none".`,
      };
    picked.push(one.sure.choice);
  }
  return { sure: { kind: 'many', choices: [...new Set(picked)] } };
}

export function readYesNo(question: Question, text: string): Reading {
  const typed = bare(text);
  const [first = ''] = typed.split(' ');
  if (typed === '1' || yesWords.includes(typed)) return { sure: { kind: 'yes-no', yes: true } };
  if (typed === '2' || noWords.includes(typed)) return { sure: { kind: 'yes-no', yes: false } };
  if (!('yes-no' in question.answer)) return { notUnderstood: 'I take yes or no.' };
  const { yes, no } = question.answer['yes-no'];
  const match = matchWords(text, [
    { id: 'yes', words: [yes] },
    { id: 'no', words: [no] },
  ]);
  if ('certain' in match && !(match.certain === 'yes' && negation.test(typed) && !negation.test(bare(yes)))) {
    return { sure: { kind: 'yes-no', yes: match.certain === 'yes' } };
  }
  const meant = ['yes', 'y', 'yep', 'yeah'].includes(first)
    ? true
    : ['no', 'n', 'nope'].includes(first)
      ? false
      : undefined;
  if (meant === undefined)
    return { notUnderstood: `I take 1 yes (${yes}) or 2 no (${no}). Or say "not sure".` };
  return { says: `Shall I write "${meant ? yes : no}"?`, meant: { kind: 'yes-no', yes: meant } };
}
