import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type EditKey, edit, emptyLine, type Line, textOf } from '../../src/screen/line-editor.ts';

const press = (...keys: EditKey[]): Line => keys.reduce(edit, emptyLine);
const type = (text: string): EditKey => ({ key: 'text', text });

describe('the line being typed', () => {
  it('inserts at the cursor and moves as a person expects', () => {
    expect(textOf(press(type('4 gal'), { key: 'left' }, { key: 'home' }, { key: 'right' }, type('0')))).toBe(
      '40 gal',
    );
  });

  it('deletes before the cursor, under it, a word, and to either end', () => {
    expect(textOf(press(type('abc'), { key: 'backspace' }))).toBe('ab');
    expect(textOf(press(type('abc'), { key: 'home' }, { key: 'delete' }))).toBe('bc');
    expect(textOf(press(type('40 gal oil'), { key: 'kill-word' }))).toBe('40 gal ');
    expect(textOf(press(type('abc'), { key: 'left' }, { key: 'kill-before' }))).toBe('c');
    expect(textOf(press(type('abc'), { key: 'left' }, { key: 'kill-after' }))).toBe('ab');
  });

  it('takes an emoji or an accent as one character', () => {
    expect(textOf(press(type('👩‍🔧x'), { key: 'left' }, { key: 'backspace' }))).toBe('x');
    expect(press(type('e'), type('\u0301')).graphemes).toHaveLength(1);
  });

  it('never loses or splits a character, whatever is pressed', () => {
    const keys = fc.array(
      fc.oneof(
        fc.string({ unit: 'grapheme', maxLength: 4 }).map(type),
        fc.constantFrom<EditKey>(
          { key: 'left' },
          { key: 'right' },
          { key: 'home' },
          { key: 'end' },
          { key: 'backspace' },
          { key: 'delete' },
        ),
      ),
    );
    fc.assert(
      fc.property(keys, (pressed) => {
        const line = press(...pressed);
        expect(line.cursor).toBeGreaterThanOrEqual(0);
        expect(line.cursor).toBeLessThanOrEqual(line.graphemes.length);
        expect([...new Intl.Segmenter().segment(textOf(line))].length).toBeLessThanOrEqual(
          line.graphemes.length,
        );
        expect(textOf(line).isWellFormed()).toBe(true);
      }),
      { seed: 20260302 },
    );
  });
});
