import { follows, type Token } from './tokens.ts';

/** How surely a number was said, from the words around it. */
export interface Hedge {
  approx: boolean;
  bound?: 'above' | 'below';
  denied: boolean;
  /** First token that belongs to the hedge. */
  from: number;
}

const approxBefore = new Set([
  'about',
  'around',
  'roughly',
  'approximately',
  'approx',
  'ca',
  'circa',
  'nearly',
  'almost',
  'maybe',
  'perhaps',
  'probably',
  'say',
  'some',
  'like',
  'near',
  'somewhere',
  '~',
]);
const above = [['more', 'than'], ['at', 'least'], ['over'], ['above'], ['>']];
const below = [['less', 'than'], ['at', 'most'], ['up', 'to'], ['under'], ['below'], ['<']];

function endsWith(tokens: readonly Token[], end: number, words: readonly string[]): boolean {
  return follows(tokens, end - words.length, ...words);
}

/** The hedge that ends just before `end`: how many tokens it takes, and which way it bounds. */
function hedgeEndingAt(
  tokens: readonly Token[],
  end: number,
): { length: number; bound?: 'above' | 'below' } | undefined {
  const up = above.find((words) => endsWith(tokens, end, words));
  const words = up ?? below.find((candidate) => endsWith(tokens, end, candidate));
  if (words !== undefined) {
    // 'no more than' turns it round.
    const turned = /^(not|no)$/.test(tokens[end - words.length - 1]?.text ?? '');
    const bound = (up !== undefined) === turned ? 'below' : 'above';
    return { length: words.length + (turned ? 1 : 0), bound };
  }
  if (approxBefore.has(tokens[end - 1]?.text ?? '')) return { length: 1 };
  const two = endsWith(tokens, end, ['close', 'to']) || endsWith(tokens, end, ['not', 'quite']);
  return two ? { length: 2 } : undefined;
}

const mostHedges = 4;

/** Reads backwards from the number at `at`: 'just over', 'about', 'no more than', 'not'. */
export function hedgeBefore(tokens: readonly Token[], at: number): Hedge {
  const hedge: Hedge = { approx: false, denied: false, from: at };
  for (let count = 0; count < mostHedges; count++) {
    const found = hedgeEndingAt(tokens, hedge.from);
    if (found === undefined) break;
    hedge.approx = true;
    hedge.from -= found.length;
    if (found.bound !== undefined) hedge.bound = found.bound;
  }
  const text = tokens[hedge.from - 1]?.text;
  if (text === 'just' && hedge.bound !== undefined) hedge.from -= 1;
  hedge.denied = tokens[hedge.from - 1]?.text === 'not';
  return hedge;
}

const approxAfter = [
  ['or', 'so'],
  ['or', 'thereabouts'],
  ['more', 'or', 'less'],
  ['give', 'or', 'take'],
  ['-', 'ish'],
  ['ish'],
  ['approximately'],
  ['approx'],
  ['roughly'],
];

/** The token behind 'or so', '-ish' and the like; the same place when there is none. */
export function pastHedge(tokens: readonly Token[], at: number): number {
  const words = approxAfter.find((candidate) => follows(tokens, at, ...candidate));
  return words === undefined ? at : at + words.length;
}
