import { bare } from './reading.ts';

export const negation =
  /\b(no|not|never|none|without|nothing|isnt|arent|wasnt|werent|dont|doesnt|didnt|hasnt|havent|cant|cannot|wont|couldnt)\b/;

/** Words that take part of an answer back. */
const excepts = /\b(but|except|apart from|besides|other than|without|minus|although|though|however)\b/;

/** What somebody means to do later takes nothing back of what is so now. */
const intends = /\bbut (?:i|we)(?:ll| will| shall| plan to| am going to| are going to)\b.*$/;

/** Words that only half mean it. */
const hedges =
  /\b(probably|possibly|maybe|perhaps|likely|presumably|apparently|think|believe|guess|assume|hope|reckon|should|supposed|ought|mostly|mainly|nearly|almost|barely|hardly|partly|partially|half|kinda|kind of|sort of|more or less|slightly|somewhat|a bit|a little|seems?|appears?)\b/;

/** Words that put it at another time, or under a condition. */
const elsewhen =
  /\b(will|ill|going to|gonna|about to|soon|later|tomorrow|in a (minute|moment|while)|once|if|unless|until|till|yesterday|earlier|ago|used to|last (week|month|year|time)|want|wants|would|could|planned|planning)\b/;

/** Words beside a reading that say it is not, or not now, what is read. */
const notRead =
  /\b(guess|hope|reckon|should|supposed|ought|will|going to|gonna|soon|later|tomorrow|if|unless|until|till|yesterday|earlier|ago|used to|last (week|month|time)|want|wants|would|aim|aiming|target|set to|setpoint|heading|(almost|nearly) there|minus|plus|except|but|think|believe|assume|twice|thrice|minimum|maximum|higher|lower|hotter|colder|warmer|cooler|more|less|too|with the|with its|including|incl|gross|before|after)\b|[<>≤≥]/;

/** Words that say that what is named has stopped or is only as far as one knows. */
const ceasedOrHeard =
  /\b(?:is|are|was|were|went|turned|switched|been|put|now)\s+(?:all\s+|now\s+)?(?:out|off|over|away|gone)\b|\b(unplugged|disconnected|i can see|as far as|that i know|i know of|i notice)\b/;

function wordedSo(pattern: RegExp, words: readonly string[]): boolean {
  return words.some((word) => pattern.test(bare(word)));
}

/** Whether something is left out of what was said ("all but the shield"), unless the choice is worded so itself. */
export function leavesOut(text: string, ownWords: readonly string[]): boolean {
  return excepts.test(bare(text).replace(intends, '')) && !wordedSo(excepts, ownWords);
}

/** Whether it is only half meant, or meant for another time, unless the choice is worded so itself. */
export function isHalfMeant(text: string, ownWords: readonly string[]): boolean {
  const typed = bare(text);
  return [hedges, elsewhen, ceasedOrHeard].some((pattern) => {
    const found = pattern.exec(typed)?.[0];
    return found !== undefined && !ownWords.some((word) => ` ${bare(word)} `.includes(` ${found} `));
  });
}

/** Whether the words around a reading say that it is not what is read now. */
export function isNotReadNow(around: string): boolean {
  const words = bare(around).replace(/^no\b(?=\s|$)|\bnot quite\b/g, '');
  return notRead.test(words) || negation.test(words) || /\byet\b/.test(words);
}

/** A question is not an answer. */
export function isAsked(text: string): boolean {
  return /\?\s*$/.test(text);
}
