import type { EditKey } from './line-editor.ts';

export type Key =
  | EditKey
  | { key: 'enter' }
  | { key: 'interrupt' }
  | { key: 'end-of-input' }
  | { key: 'suspend' };

/** Every key that does something, in one table: the bytes a terminal sends and what they mean. */
const sequences: Record<string, Key> = {
  '\r': { key: 'enter' },
  '\n': { key: 'enter' },
  '\u007f': { key: 'backspace' },
  '\b': { key: 'backspace' },
  '\u0001': { key: 'home' },
  '\u0005': { key: 'end' },
  '\u0002': { key: 'left' },
  '\u0006': { key: 'right' },
  '\u0017': { key: 'kill-word' },
  '\u0015': { key: 'kill-before' },
  '\u000b': { key: 'kill-after' },
  '\u0003': { key: 'interrupt' },
  '\u0004': { key: 'end-of-input' },
  '\u001a': { key: 'suspend' },
  '\u001b[3~': { key: 'delete' },
  '\u001b[D': { key: 'left' },
  '\u001b[C': { key: 'right' },
  '\u001b[H': { key: 'home' },
  '\u001b[F': { key: 'end' },
  '\u001b[1~': { key: 'home' },
  '\u001b[4~': { key: 'end' },
  '\u001bOD': { key: 'left' },
  '\u001bOC': { key: 'right' },
  '\u001bOH': { key: 'home' },
  '\u001bOF': { key: 'end' },
};

const pasteBegins = '\u001b[200~';
const pasteEnds = '\u001b[201~';
/** Asks the terminal to mark pasted text, so that a pasted line break is not an Enter. */
export const markPastes = { on: '\u001b[?2004h', off: '\u001b[?2004l' };

// biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is taken out
const control = /[\u0000-\u001f\u007f-\u009f]/g;

/** Turns what the terminal sends into keys; a paste may arrive in several pieces. */
export class KeyReader {
  private pasting = false;

  read(chunk: string): Key[] {
    if (chunk === pasteBegins || chunk === pasteEnds) {
      this.pasting = chunk === pasteBegins;
      return [];
    }
    if (this.pasting) {
      const text = chunk.replace(/\r\n?|\n/g, ' ').replace(control, '');
      return text === '' ? [] : [{ key: 'text', text }];
    }
    const whole = sequences[chunk];
    if (whole) return [whole];
    if (chunk.startsWith('\u001b')) return [];
    return this.split(chunk);
  }

  /** Several keys may come in one piece: "40 gal\r150 F\r" is two answers. */
  private split(chunk: string): Key[] {
    const keys: Key[] = [];
    let text = '';
    const flush = () => {
      if (text !== '') keys.push({ key: 'text', text });
      text = '';
    };
    for (const character of chunk.replaceAll('\r\n', '\r')) {
      const known = sequences[character];
      if (known) {
        flush();
        keys.push(known);
      } else text += character.replace(control, '');
    }
    flush();
    return keys;
  }
}
