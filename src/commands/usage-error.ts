/** Something on the command line is off; the message says what would be right. Exit code 2. */
export class UsageError extends Error {
  override readonly name = 'UsageError';
}
