/** One mistake in a rule file, with the place a person has to look at. */
export interface Mistake {
  file: string;
  line?: number;
  field?: string;
  says: string;
}

export function showMistake(mistake: Mistake): string {
  const place = mistake.line === undefined ? mistake.file : `${mistake.file}:${mistake.line}`;
  return mistake.field ? `${place}  ${mistake.field}: ${mistake.says}` : `${place}  ${mistake.says}`;
}

/** Thrown when the rule files cannot be used; its message lists every mistake found, one a line. */
export class RuleFileError extends Error {
  readonly mistakes: readonly Mistake[];

  constructor(mistakes: readonly Mistake[]) {
    super(mistakes.map(showMistake).join('\n'));
    this.name = 'RuleFileError';
    this.mistakes = mistakes;
  }
}
