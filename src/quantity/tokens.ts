/** `clock` is digits with a colon (14:35): never a plain number. */
export type TokenKind = 'number' | 'clock' | 'fraction' | 'word' | 'mark';

export interface Token {
  readonly kind: TokenKind;
  /** Lower case; dashes, degree signs and ± brought to one form. */
  readonly text: string;
  readonly start: number;
  readonly end: number;
  readonly spaceBefore: boolean;
}

const vulgarFractions: Record<string, number> = {
  '¼': 1 / 4,
  '½': 1 / 2,
  '¾': 3 / 4,
  '⅐': 1 / 7,
  '⅑': 1 / 9,
  '⅒': 1 / 10,
  '⅓': 1 / 3,
  '⅔': 2 / 3,
  '⅕': 1 / 5,
  '⅖': 2 / 5,
  '⅗': 3 / 5,
  '⅘': 4 / 5,
  '⅙': 1 / 6,
  '⅚': 5 / 6,
  '⅛': 1 / 8,
  '⅜': 3 / 8,
  '⅝': 5 / 8,
  '⅞': 7 / 8,
};

export function vulgarFraction(text: string): number | undefined {
  return Object.hasOwn(vulgarFractions, text) ? vulgarFractions[text] : undefined;
}

// The masculine ordinal and the ring are typed for the degree sign.
const sameMarks: Record<string, string> = {
  '–': '-',
  '—': '-',
  '−': '-',
  '‑': '-',
  '⁄': '/',
  '∕': '/',
  º: '°',
  '˚': '°',
  '℃': '°c',
  '℉': '°f',
  '+/-': '±',
  '+-': '±',
  '+/−': '±',
  '≈': '~',
  '×': 'x',
  '*': 'x',
  '≤': '<',
  '≥': '>',
};

const pattern = new RegExp(
  [
    String.raw`(?<clock>\d{1,3}:\d{2}(?::\d{2})?(?![\d:]))`,
    // Groups of three held by a no-break or thin space, or an apostrophe; else digits with points or commas.
    String.raw`(?<number>(?:\d{1,3}(?:[\u00a0\u2009\u202f'’]\d{3})+(?!\d)(?:[.,]\d+)?|\d[\d.,]*\d|\d|\.\d+)(?:e[+-]?\d{1,3}(?![\p{L}\d]))?)`,
    '(?<fraction>[¼½¾⅐⅑⅒⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞])',
    String.raw`(?<mark>\+\/[-−]|\+-|[º℃℉])`,
    String.raw`(?<word>(?:cm|mm|m)[23](?![\p{L}\d])|\p{L}+(?:['’]\p{L}+)*)`,
    String.raw`(?<other>\S)`,
  ].join('|'),
  'giu',
);

function kindOf(groups: Record<string, string | undefined>): TokenKind {
  if (groups.clock !== undefined) return 'clock';
  if (groups.number !== undefined) return 'number';
  if (groups.fraction !== undefined) return 'fraction';
  return groups.word !== undefined ? 'word' : 'mark';
}

/** Cuts a line as typed into numbers, words and marks, remembering where each stood. */
export function tokenize(line: string): Token[] {
  const tokens: Token[] = [];
  let previousEnd = 0;
  for (const match of line.matchAll(pattern)) {
    const [raw] = match;
    const text = Object.hasOwn(sameMarks, raw)
      ? (sameMarks[raw] ?? raw)
      : raw.toLowerCase().replaceAll('’', "'");
    const [start, end] = [match.index, match.index + raw.length];
    tokens.push({ kind: kindOf(match.groups ?? {}), text, start, end, spaceBefore: start > previousEnd });
    previousEnd = end;
  }
  return tokens;
}

/** Are the tokens from `at` on exactly these texts? */
export function follows(tokens: readonly Token[], at: number, ...texts: string[]): boolean {
  return texts.every((text, k) => tokens[at + k]?.text === text);
}
