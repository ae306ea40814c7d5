/** Breaks a line at its spaces so that it fits; what follows is set in as far as the line itself was. */
export function wrap(line: string, columns: number): string[] {
  const indent = /^ */.exec(line)?.[0] ?? '';
  const lines: string[] = [];
  let current = indent;
  for (const word of line.trimStart().split(' ')) {
    const begun = current === indent ? indent : `${current} `;
    if (current !== indent && [...begun, ...word].length > columns) {
      lines.push(current);
      current = indent + word;
    } else current = begun + word;
  }
  return [...lines, current];
}
