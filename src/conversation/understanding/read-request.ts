import type { EventBody, RequestKind } from '../events.ts';

/** One way to say something beside the question. `key` alone does it too, `key WORDS` where it takes words. */
interface Saying {
  request: RequestKind;
  key: string;
  pattern: RegExp;
}

const end = '\\s*[?.!]*$';
const saying = (request: RequestKind, key: string, words: string): Saying => ({
  request,
  key,
  pattern: new RegExp(`^(?:${words})${end}`, 'i'),
});

/** Requests that are answered in words. The keys are no choice words; a choice word that is one key wins. */
const sayings: Saying[] = [
  saying('what-can-i-say', '?', 'help|commands|what can i (?:say|type|ask)|what else can i say'),
  saying(
    'how-to',
    'h',
    'how|how to|how do i|how (?:do|does|can|should) (?:i|you|we|this|that|it)(?: (?:do|work|go))?(?: (?:this|that|it))?|how (?:do|can|should|would|must) (?:i|we) (?:fix|do|clear|get|check|measure|test|know|mend|solve|stop|find|read|tell|start|make) .{0,80}|show me(?: how)?|what (?:do|should|must) (?:i|we) do(?: here| now)?|what do you (?:mean|want)(?: (?:by|with) .{0,60})?|i (?:do not|don.?t) (?:understand|get it|get that)(?: .{0,40})?',
  ),
  saying(
    'why-ask',
    'w',
    'why|what for|why (?:do|are) you (?:ask|asking|want to know|need to know)(?: (?:this|that|it))?|why (?:does|would|is) (?:this|that|it) (?:matter|important|needed)|why (?:do|would|should|must|are) (?:you|i|we) .{1,60}|what (?:is this|is that|do you need (?:this|that|it)) for',
  ),
  saying(
    'how-sure',
    '~',
    'how (?:sure|certain|exact|accurate)(?: (?:is|are) (?:(?:you|that|this|it)|(?:the |my )?(?<about>.+?)))?',
  ),
  saying('how-worked-out', '=', 'how (?:did you (?:get|work out|come (?:to|by))|do you know) ?(?<about>.*?)'),
  saying(
    'timers',
    't',
    "timers?|what(?: are|'re| am) (?:we|i|you) waiting for|how long (?:do|must|should) (?:i|we) (?:still )?wait|how (?:long|much time) (?:is )?(?:left|to go|still)",
  ),
  saying(
    'what-is-left',
    'r',
    "what(?: is|'s|s) (?:left|still to come|to come)|how much (?:is|'s) left|what (?:comes|remains)(?: next)?|how far to go",
  ),
  saying('where', 'm', 'where|where (?:am i|are we)|how far(?: am i| are we)?'),
  saying('long-wording', 'l', 'long|long (?:words|wording|questions)|more words'),
  saying('short-wording', 's', 'short|short (?:words|wording|questions)|fewer words'),
  saying(
    'word',
    'd',
    "(?:what(?: is|'s|s| are| does)|explain|define)\\s+(?:an?\\s+|the\\s+)?(?<about>.+?)(?: means?)?",
  ),
];

/** Said with words behind: a key, then the words. */
const withWords: { pattern: RegExp; make: (words: string) => EventBody }[] = [
  { pattern: /^(?:note\b:?|\+)\s*(?<words>\S.*)$/is, make: (text) => ({ type: 'NoteMade', text }) },
  {
    pattern: /^(?:calc|c)\s+(?<words>\S.*)$/i,
    make: (about) => ({ type: 'RequestMade', request: 'calculate', about }),
  },
  { pattern: /^[?d]\s+(?<words>\S.*)$/i, make: (about) => ({ type: 'RequestMade', request: 'word', about }) },
  {
    pattern: /^=\s+(?<words>\S.*)$/i,
    make: (about) => ({ type: 'RequestMade', request: 'how-worked-out', about }),
  },
  {
    pattern: /^~\s+(?<words>\S.*)$/i,
    make: (about) => ({ type: 'RequestMade', request: 'how-sure', about }),
  },
];

function asRequest(text: string): EventBody | undefined {
  for (const { request, key, pattern } of sayings) {
    if (text.toLowerCase() === key) return { type: 'RequestMade', request };
    const found = pattern.exec(text);
    if (!found) continue;
    const about = found.groups?.about?.replace(/^(that|this|it|you)$/i, '').trim();
    return about ? { type: 'RequestMade', request, about } : { type: 'RequestMade', request };
  }
  return undefined;
}

/** Trouble comes first, whatever is being asked. */
export function readTrouble(text: string): EventBody | undefined {
  const said = /^(something('s| is|s)? (is )?wrong|trouble|emergency|alarm|help me)\b/i.test(text);
  return said || text.startsWith('!') ? { type: 'TroubleReported', text } : undefined;
}

/** Things that can be said at any question, in plain words or by a key typed alone. */
export function readRequest(text: string): EventBody | undefined {
  if (/^(back|go back|undo|take (that|it) back|<)[.!]?$/i.test(text)) return { type: 'AnswerWithdrawn' };
  if (/^(pause|p|stop|stop for (now|today)|quit|exit|later)[.!]?$/i.test(text))
    return { type: 'SessionPaused' };
  const giveUp = /^give up(?: (?:this|the) batch)?(?:[:,]\s*(?<reason>.*))?$/i.exec(text);
  if (giveUp) return { type: 'BatchGivenUp', reason: giveUp.groups?.reason ?? '' };
  for (const { pattern, make } of withWords) {
    const words = pattern.exec(text)?.groups?.words;
    if (words) return make(words);
  }
  return asRequest(text);
}

export const whatCanBeSaid = [
  'Answer with the number of a choice, its words, or a reading with its unit. One line may answer several questions.',
  'not sure: the honest answer; it is never taken as a yes.    skip: leave this one empty.    same as last time',
  'Beside the question, in words or by the key in front (a key counts alone, and only where it is no choice):',
  '  h  how do I: how to do this               w  why: why I ask',
  '  =  how did you get that: the numbers      ~  how sure: the ± and what it comes from',
  '  d WORD  what is WORD: a word explained    c NAME key=value  calc: any sum',
  '  m  where am I: the stages                 r  what is left: questions and stages to come',
  '  t  timers: what is waited for             l long  s short: the wording of the questions',
  '  what if X were Y, what would 3 mL more do: looked at on a copy, nothing changes',
  '  change ANSWER to VALUE: put an earlier answer right; all that rests on it is worked out again',
  '  <  back: take the last answer back        + WORDS  note: keep a remark in the log',
  '  !  something is wrong: fire, hurt, smell, boiling over. It comes before everything else',
  '  p  pause: stop for now and go on later    give up: end this batch for good (no key, on purpose)',
].join('\n');
