import { type Document, isNode, LineCounter, parseDocument } from 'yaml';
import type * as z from 'zod';
import type { Mistake } from './rule-file-error.ts';

/** A rule file as handed in by whoever reads the disk; `path` is relative to rules/. */
export interface RuleFile {
  path: string;
  text: string;
}

type Path = readonly PropertyKey[];

/** Enough for shared conditions in one file; a rule pack built to expand without end is refused. */
const mostAliases = 1000;

/** A parsed rule file that still knows on which line each field stands. */
export class RuleText {
  readonly path: string;
  readonly mistakes: Mistake[] = [];
  private readonly document: Document;
  private readonly lines = new LineCounter();

  constructor(file: RuleFile) {
    this.path = file.path;
    this.document = parseDocument(file.text, { lineCounter: this.lines, uniqueKeys: true });
    for (const problem of this.document.errors) {
      this.mistakes.push({
        file: file.path,
        line: this.lines.linePos(problem.pos[0]).line,
        says: problem.message.split('\n')[0] ?? problem.message,
      });
    }
  }

  /** The line of a field, or of the nearest field around it that is written down. */
  lineOf(path: Path): number {
    for (let length = path.length; length > 0; length -= 1) {
      const node = this.document.getIn(path.slice(0, length), true);
      if (isNode(node) && node.range) return this.lines.linePos(node.range[0]).line;
    }
    return 1;
  }

  mistake(path: Path, says: string): Mistake {
    return { file: this.path, line: this.lineOf(path), field: path.map(String).join('.'), says };
  }

  /** The file's content when it fits the schema; otherwise its mistakes are noted and nothing comes back. */
  read<T>(schema: z.ZodType<T>): T | undefined {
    if (this.mistakes.length > 0) return undefined;
    const checked = schema.safeParse(this.document.toJS({ maxAliasCount: mostAliases }));
    if (checked.success) return checked.data;
    for (const issue of checked.error.issues) this.mistakes.push(...this.fromIssue(issue, []));
    return undefined;
  }

  private fromIssue(issue: z.core.$ZodIssue, before: Path): Mistake[] {
    const path = [...before, ...issue.path];
    if (issue.code === 'invalid_union' && issue.errors.length > 0) {
      return this.deepest(issue.errors, path);
    }
    if (issue.code === 'unrecognized_keys') {
      return issue.keys.map((key) => this.mistake([...path, key], 'is not a field that belongs here'));
    }
    const missing = issue.code === 'invalid_type' && issue.message.endsWith('received undefined');
    return [this.mistake(path, missing ? 'is missing' : issue.message)];
  }

  /** Of a union's alternatives, the one that the writer came closest to tells most. */
  private deepest(alternatives: readonly z.core.$ZodIssue[][], path: Path): Mistake[] {
    const ranked = alternatives
      .map((issues) => issues.flatMap((issue) => this.fromIssue(issue, path)))
      .filter((mistakes) => mistakes.length > 0)
      .sort((one, other) => depth(other) - depth(one) || one.length - other.length);
    return ranked[0] ?? [this.mistake(path, 'has a shape that no rule of this kind has')];
  }
}

function depth(mistakes: readonly Mistake[]): number {
  return Math.max(...mistakes.map((mistake) => mistake.field?.split('.').length ?? 0));
}
