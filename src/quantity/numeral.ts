/**
 * What a string of digits, points and commas can mean: no reading (not a number), one, or two when a
 * group of three behind one mark is either thousands or decimals. The reading as thousands comes last
 * for a point and first for a comma, as an English reader would have it.
 * @example readNumeral('2,5') // [2.5]
 * @example readNumeral('1,000') // [1000, 1]
 */
export function readNumeral(text: string): number[] {
  const [, digits = '', exponent = ''] = /^(.*?)(e[+-]?\d+)?$/i.exec(text) ?? [];
  const plain = digits.replace(/[\u00a0\u2009\u202f'’]/g, '');
  if (plain !== digits && /[.,]\d+[.,]/.test(plain)) return [];
  return readingsOf(plain, exponent === '' && plain === digits)
    .map((reading) => Number(reading + exponent))
    .filter(Number.isFinite);
}

function readingsOf(text: string, mayGroup: boolean): string[] {
  if (/^\d+$/.test(text) || /^\.\d+$/.test(text)) return [text];
  const one = /^(\d+)([.,])(\d+)$/.exec(text);
  if (one) {
    const [, whole = '', mark, rest = ''] = one;
    const decimal = `${whole}.${rest}`;
    const couldGroup = mayGroup && /^[1-9]\d{0,2}$/.test(whole) && rest.length === 3;
    if (!couldGroup) return [decimal];
    return mark === ',' ? [whole + rest, decimal] : [decimal, whole + rest];
  }
  const grouped =
    /^(\d{1,3}(?:,\d{3})+)(?:\.(\d+))?$/.exec(text) ?? /^(\d{1,3}(?:\.\d{3})+)(?:,(\d+))?$/.exec(text);
  if (!grouped) return [];
  const [, whole = '', rest] = grouped;
  const joined = whole.replace(/[.,]/g, '');
  return [rest === undefined ? joined : `${joined}.${rest}`];
}
