import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { safeLine, safeText } from '../../src/conversation/safe-text.ts';

const obeyed =
  // biome-ignore lint/suspicious/noControlCharactersInRegex: looked for on purpose
  /[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069\u200e\u200f\u061c\u200b\ufeff]/;

describe('text on the way to a terminal', () => {
  it.each([
    ['\u001b]0;title\u0007', '\\x1b]0;title\\x07'],
    ['\u001b]52;c;Y2xpcA==\u0007', '\\x1b]52;c;Y2xpcA==\\x07'],
    ['\u009b31mred', '\\x9b31mred'],
    ['a\rb', 'a\nb'],
    ['abc\u202edef', 'abc\\u{202e}def'],
    ['zero\u200bwidth', 'zero\\u{200b}width'],
  ])('%j is shown, not obeyed', (typed, shown) => {
    expect(safeText(typed)).toBe(shown);
  });

  it('leaves ordinary words, accents and emoji alone', () => {
    expect(safeText('54 °C, déjà vu, 油, 👍')).toBe('54 °C, déjà vu, 油, 👍');
  });

  it('lets nothing through that a terminal would obey, and changes nothing the second time', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), (text) => {
        const once = safeText(text);
        expect(once).not.toMatch(obeyed);
        expect(safeText(once)).toBe(once);
        expect(safeLine(text)).not.toContain('\n');
      }),
      { seed: 20260302, numRuns: 2000 },
    );
  });
});
