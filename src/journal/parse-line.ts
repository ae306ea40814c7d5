import { JournalError } from './journal-error.ts';
import { upgrade } from './upgrade.ts';

/**
 * A line as a record of the present version, as far as its version tells; its form is not checked any further.
 * @throws JournalError  when it is no JSON, has no version, or is of a newer one
 */
export function parseLine(file: string, line: string, number: number): unknown {
  let parsed: unknown;
  try {
    parsed = JSON.parse(line);
  } catch {
    throw new JournalError(file, 'this is not JSON; the file was changed or damaged here', number);
  }
  const upgraded = upgrade(parsed);
  if ('newer' in upgraded) {
    const says = `written by a newer Batchside (format ${upgraded.newer}); update this one to open it`;
    throw new JournalError(file, says, number);
  }
  if ('unversioned' in upgraded)
    throw new JournalError(file, 'this is no Batchside record (it has no version)', number);
  return upgraded.record;
}
