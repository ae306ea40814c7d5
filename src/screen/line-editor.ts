/** One line of typing, kept in graphemes so that no key splits what a person sees as one character. */
export interface Line {
  graphemes: readonly string[];
  /** The cursor stands before this grapheme. */
  cursor: number;
}

export type EditKey =
  | { key: 'text'; text: string }
  | {
      key:
        | 'left'
        | 'right'
        | 'home'
        | 'end'
        | 'backspace'
        | 'delete'
        | 'kill-word'
        | 'kill-before'
        | 'kill-after';
    };

export const emptyLine: Line = { graphemes: [], cursor: 0 };

const segmenter = new Intl.Segmenter();

function split(text: string): string[] {
  return [...segmenter.segment(text)].map((part) => part.segment);
}

export function textOf(line: Line): string {
  return line.graphemes.join('');
}

function insert(line: Line, text: string): Line {
  // What is typed may join with its neighbours into one grapheme, so the whole line is split anew.
  const before = line.graphemes.slice(0, line.cursor).join('') + text;
  const after = line.graphemes.slice(line.cursor).join('');
  const graphemes = split(before + after);
  let cursor = 0;
  for (let length = 0; cursor < graphemes.length && length < before.length; cursor += 1) {
    length += graphemes[cursor]?.length ?? 0;
  }
  return { graphemes, cursor };
}

function cut(line: Line, from: number, to: number): Line {
  const graphemes = [...line.graphemes.slice(0, from), ...line.graphemes.slice(to)];
  return { graphemes, cursor: from };
}

function wordStart(line: Line): number {
  let at = line.cursor;
  while (at > 0 && line.graphemes[at - 1] === ' ') at -= 1;
  while (at > 0 && line.graphemes[at - 1] !== ' ') at -= 1;
  return at;
}

export function edit(line: Line, key: EditKey): Line {
  const { graphemes, cursor } = line;
  switch (key.key) {
    case 'text':
      return insert(line, key.text);
    case 'left':
      return { graphemes, cursor: Math.max(0, cursor - 1) };
    case 'right':
      return { graphemes, cursor: Math.min(graphemes.length, cursor + 1) };
    case 'home':
      return { graphemes, cursor: 0 };
    case 'end':
      return { graphemes, cursor: graphemes.length };
    case 'backspace':
      return cursor === 0 ? line : cut(line, cursor - 1, cursor);
    case 'delete':
      return cut(line, cursor, cursor + 1);
    case 'kill-word':
      return cut(line, wordStart(line), cursor);
    case 'kill-before':
      return cut(line, 0, cursor);
    case 'kill-after':
      return cut(line, cursor, graphemes.length);
  }
}
