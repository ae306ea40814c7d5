import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { wrap } from '../../src/plain/wrap.ts';

describe('a line that is too long', () => {
  it('breaks at its spaces and stays set in', () => {
    expect(wrap('  cold settling takes a night', 16)).toEqual(['  cold settling', '  takes a night']);
  });

  it('keeps a word that fits nowhere in one piece', () => {
    expect(wrap('methyl-ester-and-more is long', 10)).toEqual(['methyl-ester-and-more', 'is long']);
  });

  it('loses no word, and no line of several words is too long', () => {
    fc.assert(
      fc.property(
        fc.array(fc.stringMatching(/^[a-z]{1,9}$/), { minLength: 1 }),
        fc.integer({ min: 12, max: 60 }),
        (words, columns) => {
          const lines = wrap(words.join(' '), columns);
          expect(lines.join(' ')).toBe(words.join(' '));
          for (const line of lines) expect(line.length).toBeLessThanOrEqual(columns);
        },
      ),
      { seed: 20260302 },
    );
  });
});
