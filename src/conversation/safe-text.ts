/**
 * Text from a log, a rule pack or the keyboard as a terminal may show it: control characters, bidirectional
 * marks and invisible ones are shown, not obeyed. The journal keeps the raw text.
 */
const unsafe =
  // biome-ignore lint/suspicious/noControlCharactersInRegex: these are what must not reach the terminal
  /[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u00ad\u061c\u200b-\u200f\u202a-\u202e\u2060-\u206f\ufeff\ufff9-\ufffb]|[\u{e0000}-\u{e007f}]/gu;
const plainAscii = /^[\n\u0020-\u007e]*$/;

function shown(character: string): string {
  const code = character.codePointAt(0) ?? 0;
  return code < 0x100 ? `\\x${code.toString(16).padStart(2, '0')}` : `\\u{${code.toString(16)}}`;
}

export function safeText(text: string): string {
  if (plainAscii.test(text)) return text;
  return text
    .toWellFormed()
    .replace(/\r\n|[\r\u0085\u2028\u2029]/g, '\n')
    .replace(unsafe, shown);
}

/** For places where one line is expected: a line break could forge a line of the talk. */
export function safeLine(text: string): string {
  return safeText(text).replaceAll('\n', '\\n');
}
