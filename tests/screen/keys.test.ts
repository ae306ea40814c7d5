import { describe, expect, it } from 'vitest';
import { KeyReader } from '../../src/screen/keys.ts';

const read = (...chunks: string[]) => {
  const reader = new KeyReader();
  return chunks.flatMap((chunk) => reader.read(chunk));
};

describe('what the terminal sends', () => {
  it('keeps the Enter that comes in the same piece as text, twice over', () => {
    expect(read('40 gal\r150 F\r')).toEqual([
      { key: 'text', text: '40 gal' },
      { key: 'enter' },
      { key: 'text', text: '150 F' },
      { key: 'enter' },
    ]);
  });

  it('takes a pasted line break as a space, never as Enter', () => {
    expect(read('\u001b[200~', 'one\r\ntwo', '\u001b[201~')).toEqual([{ key: 'text', text: 'one two' }]);
  });

  it('tells Backspace from Delete and knows Home and End', () => {
    expect(read('\u007f', '\u001b[3~', '\u001b[H', '\u0005').map((key) => key.key)).toEqual([
      'backspace',
      'delete',
      'home',
      'end',
    ]);
  });

  it('drops control characters and unknown sequences', () => {
    expect(read('a\u0000b\u0007')).toEqual([{ key: 'text', text: 'ab' }]);
    expect(read('\u001b[5~')).toEqual([]);
  });
});
