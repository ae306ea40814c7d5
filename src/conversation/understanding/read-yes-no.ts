import type { Question } from '../../rulebook/rule-schema.ts';
import type { Answer } from '../events.ts';
import type { Named } from './match-words.ts';
import { doubted, pick, wordsOfQuestion } from './read-choice.ts';
import { isHalfMeant, leavesOut, negation } from './read-doubtful.ts';
import { findPhrases } from './read-phrases.ts';
import { bare, type Reading } from './reading.ts';

const yesWords = /^(1|yes|y|yep|yup|yeah|aye|sure|true|done|ok|okay|correct|affirmative|of course)$/;
const noWords =
  /^(2|no|n|nope|nah|false|not yet|negative|no not yet|(no )?not yet( but)?( (i|we) (will|shall|plan to)( (do (it|so|that)|soon|later|now))?| soon)?|havent( yet)?|not done( yet)?)$/;
const yesLead = /^(yes|yep|yup|yeah|aye)\b[\s,.:;-]*/i;
const noLead = /^(no|nope|nah)\b[\s,.:;-]*/i;

interface Sides {
  yes: string;
  no: string;
  also?: { yes?: string[] | undefined; no?: string[] | undefined } | undefined;
}

/** The ways a side can be said: whole, without its "yes, ", and each of what stands there with "or". */
function waysOf(side: string): string[] {
  const without = side.replace(/^(yes|no)\s*,\s*(or\s+)?/i, '');
  return [...new Set([side, without, ...without.split(/\s*,?\s+or\s+/)])].filter((way) => way !== '');
}

/** All ways to say the one side or the other, with the words that the rule file adds. */
function wordsOf(sides: Sides, side: 'yes' | 'no'): string[] {
  return [...waysOf(sides[side]), ...(sides.also?.[side] ?? [])];
}

function said(yes: boolean): Answer {
  return { kind: 'yes-no', yes };
}

/** "yes, the same tub", "no it was not": the first word decides, if the rest only repeats it. */
function readLed(question: Question, sides: Sides, text: string): Reading | undefined {
  const yes = yesLead.test(text);
  if (!yes && !noLead.test(text)) return undefined;
  const rest = text.replace(yes ? yesLead : noLead, '');
  if (/\b(yes|no)\b/i.test(rest)) return undefined;
  const own = wordsOf(sides, yes ? 'yes' : 'no');
  const known = new Set([...wordsOfQuestion(question), ...own.flatMap((way) => bare(way).split(' '))]);
  const { left, live } = findPhrases(
    rest,
    [{ id: 'other', words: wordsOf(sides, yes ? 'no' : 'yes') }],
    known,
  );
  const words = left.filter((word) => yes || !negation.test(word));
  const turned = yes && negation.test(bare(rest)) && !own.some((way) => negation.test(bare(way)));
  if (
    !turned &&
    live.length === 0 &&
    words.length === 0 &&
    !leavesOut(rest, own) &&
    !isHalfMeant(rest, own)
  ) {
    return { sure: said(yes) };
  }
  // "Yeah, had a beer": what is named behind the yes counts for more than the yes.
  if (live.length > 0) return doubted('more-said', yes ? sides.no : sides.yes, said(!yes));
  return doubted('more-said', yes ? sides.yes : sides.no, said(yes));
}

/** "I think so" and the like. */
function readLeaning(sides: Sides, typed: string): Reading | undefined {
  if (/^i (think|guess|believe|hope|suppose) so$/.test(typed))
    return doubted('half-meant', sides.yes, said(true));
  if (
    /^(not )?(that|as far as) i (know|know of|am aware( of)?)$|^(no )?(not|none|nothing) that i know( of)?$/.test(
      typed,
    )
  ) {
    return doubted('half-meant', sides.no, said(false));
  }
  if (/^i (dont think so|think not|guess not|hope not)$/.test(typed)) {
    return doubted('half-meant', sides.no, said(false));
  }
  return undefined;
}

/** "not locked": the yes side denied is likely the no side, unless that is worded so itself. */
function readDenied(
  question: Question,
  sides: Sides,
  things: readonly Named[],
  text: string,
): Reading | undefined {
  if (
    !negation.test(bare(text)) ||
    things.some((thing) =>
      thing.words.some((word) => negation.test(bare(word)) && bare(text).includes(bare(word))),
    )
  )
    return undefined;
  const positive = bare(text).replace(new RegExp(negation, 'g'), ' ');
  const picked = pick(positive, things, wordsOfQuestion(question));
  const id = 'sure' in picked ? picked.sure : 'likely' in picked ? picked.likely : undefined;
  return id === 'yes' ? doubted('more-said', sides.no, said(false)) : undefined;
}

export function readYesNo(question: Question, text: string): Reading {
  if (!('yes-no' in question.answer)) return { notUnderstood: 'I take yes or no.' };
  const sides = question.answer['yes-no'];
  const typed = bare(text.replace(/\?+$/, ''));
  if (yesWords.test(typed)) return { sure: said(true) };
  if (noWords.test(typed)) return { sure: said(false) };
  const led = readLed(question, sides, text) ?? readLeaning(sides, typed);
  if (led) return led;
  const things: Named[] = [
    { id: 'yes', words: wordsOf(sides, 'yes') },
    { id: 'no', words: wordsOf(sides, 'no') },
  ];
  const denied = readDenied(question, sides, things, text);
  if (denied) return denied;
  const picked = pick(text, things, wordsOfQuestion(question));
  if ('sure' in picked) return { sure: said(picked.sure === 'yes') };
  if ('likely' in picked)
    return doubted(picked.because, sides[picked.likely as 'yes' | 'no'], said(picked.likely === 'yes'));
  return { notUnderstood: `I take 1 yes (${sides.yes}) or 2 no (${sides.no}). Or say "not sure".` };
}
