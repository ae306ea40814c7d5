/**
 * The inputs of a calculation do not fit it: a key is missing, unknown, or its value is of the wrong kind.
 */
export class BadInputError extends Error {
  readonly key: string;

  constructor(key: string, message: string) {
    super(message);
    this.name = 'BadInputError';
    this.key = key;
  }
}
