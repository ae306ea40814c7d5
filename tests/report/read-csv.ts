/** Reads RFC 4180 text, strictly: CR LF after every row, quotes only around a whole field. */
export function readCsv(text: string): string[][] {
  const rows: string[][] = [];
  let row: string[] = [];
  const field = /("(?:[^"]|"")*"|[^",\r\n]*)(,|\r\n)/y;
  while (field.lastIndex < text.length) {
    const at = field.lastIndex;
    const [, raw = '', end] = field.exec(text) ?? [];
    if (end === undefined) throw new Error(`no field of a table at character ${at}`);
    row.push(raw.startsWith('"') ? raw.slice(1, -1).replaceAll('""', '"') : raw);
    if (end === ',') continue;
    rows.push(row);
    row = [];
  }
  return rows;
}
