import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { parse } from 'yaml';
import * as z from 'zod';
import { readRuleFiles } from '../../src/commands/read-rules.ts';
import type { Book } from '../../src/rulebook/book.ts';
import type { Plain } from '../../src/rulebook/condition.ts';
import type { Figure } from '../../src/rulebook/evaluation.ts';
import { isCaseFile, loadRules } from '../../src/rulebook/load-rules.ts';
import type { Question } from '../../src/rulebook/rule-schema.ts';

const codeFolder = new URL('../../src/rulebook/', import.meta.url).pathname;

const caseSchema = z.strictObject({
  rule: z.string(),
  name: z.string().min(3),
  given: z.record(z.string(), z.union([z.string(), z.number(), z.boolean(), z.array(z.string())])),
  expect: z.enum(['fires', 'silent', 'undecided', 'stops', 'safe']),
});

type Loaded = ReturnType<typeof loadRules>;

/**
 * The real rules, loaded. Checking them takes seconds and dozens of test files need them, so the first one keeps the
 * result under a name made of the rule texts and of the code that checks them.
 */
function loadedOnce(): Loaded {
  const folder = new URL('../../node_modules/.cache/batchside/', import.meta.url).pathname;
  const checking = readdirSync(codeFolder).map((name) => readFileSync(codeFolder + name, 'utf8'));
  const name = createHash('sha256').update(read.hash).update(checking.join('\0')).digest('hex');
  const kept = `${folder}${name}.json`;
  if (existsSync(kept)) return JSON.parse(readFileSync(kept, 'utf8')) as Loaded;
  const loaded = loadRules(read.files, read.hash);
  mkdirSync(folder, { recursive: true });
  const draft = `${kept}.${process.pid}`;
  writeFileSync(draft, JSON.stringify(loaded));
  renameSync(draft, kept);
  return loaded;
}

export type RuleCase = z.infer<typeof caseSchema> & { file: string };

const root = new URL('../../rules', import.meta.url).pathname;
const read = readRuleFiles(root);
export const { book, decisions } = loadedOnce();

export const cases: RuleCase[] = read.files
  .filter((file) => isCaseFile(file.path))
  .flatMap((file) =>
    z
      .strictObject({ cases: z.array(caseSchema) })
      .parse(parse(file.text))
      .cases.map((one) => ({ ...one, file: file.path })),
  );

function unitOf(question: Question | undefined): Figure['unit'] {
  if (question && 'quantity' in question.answer) return question.answer.quantity.unit;
  return question && 'duration' in question.answer ? 'min' : '1';
}

/** The facts of a case: answers as rules see them, computed figures as given. */
export function factsGiven(of: Book, given: RuleCase['given']) {
  const values: Record<string, Plain | Figure> = {};
  const status: Record<string, 'known' | 'not-sure' | 'skipped'> = {};
  for (const [id, value] of Object.entries(given)) {
    const question = of.questions[id];
    if (question && (value === 'not-sure' || value === 'skipped')) {
      status[id] = value;
      continue;
    }
    values[id] = typeof value === 'number' ? { value, unit: unitOf(question), plusMinus: 0 } : value;
    if (question) status[id] = 'known';
  }
  return { values, status };
}
