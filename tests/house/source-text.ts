import path from 'node:path';

export interface Import {
  readonly specifier: string;
  /** The imported file, from the top of the tree, when the import is relative. */
  readonly target: string | undefined;
}

const IMPORT =
  /\b(?:import|export)\b[^'"`;]*?\bfrom\s*(['"])([^'"]+)\1|\bimport\s*(['"])([^'"]+)\3|\b(?:import|require)\s*\(\s*(['"`])([^'"`]+)\5/g;

/** Static imports, re-exports, imports for effect, `import()`, `require()` and types by `import('x')`. */
export function importsOf(file: string, source: string): Import[] {
  return [...withoutComments(source).matchAll(IMPORT)].map((found) => {
    const specifier = found[2] ?? found[4] ?? found[6] ?? '';
    const isRelative = specifier.startsWith('.');
    return {
      specifier,
      target: isRelative ? path.posix.join(path.posix.dirname(file), specifier) : undefined,
    };
  });
}

// A string may hold `//` and a comment a quote, so one pattern has to see both. A regular expression literal with a
// quote in it can mislead this, which is why only words that are rare inside one are looked for in the result.
const STRING_OR_COMMENT =
  /'(?:\\.|[^'\\\n])*'|"(?:\\.|[^"\\\n])*"|`(?:\\[\s\S]|[^`\\])*`|\/\/[^\n]*|\/\*[\s\S]*?\*\//g;

export function withoutComments(source: string): string {
  return source.replace(STRING_OR_COMMENT, (part) => (part.startsWith('/') ? ' ' : part));
}

/** Code alone: comments and the insides of plain strings taken out, template strings kept for their `${}`. */
export function codeOnly(source: string): string {
  return source.replace(STRING_OR_COMMENT, (part) => {
    if (part.startsWith('/')) return ' ';
    return part.startsWith('`') ? part : "''";
  });
}
