/** Something the person at the keyboard can act on: shown as one line, without a stack. */
export class SetupError extends Error {
  constructor(message, exitCode = 1) {
    super(message);
    this.name = 'SetupError';
    this.exitCode = exitCode;
  }
}

export function say(line) {
  process.stderr.write(`Batchside: ${line}\n`);
}

const DISK_TROUBLE = new Set(['EACCES', 'EPERM', 'EROFS', 'ENOSPC', 'EDQUOT']);

/** Runs one of the commands of this folder; what nobody at the keyboard can mend is ours and keeps its stack. */
export async function orExplain(work) {
  try {
    return await work();
  } catch (error) {
    if (error instanceof SetupError) return end(error.message, error.exitCode);
    if (DISK_TROUBLE.has(error.code)) return end(`the disk would not take a file: ${error.message}`, 1);
    throw error;
  }
}

function end(message, exitCode) {
  say(message);
  return process.exit(exitCode);
}
