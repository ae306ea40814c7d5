import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it, vi } from 'vitest';
import { parse } from 'yaml';
import * as z from 'zod';
import { findingsOf } from '../../src/review/findings.ts';
import { book } from '../rulebook/cases.ts';
import { editedStory } from './edited-log.ts';

vi.setConfig({ testTimeout: 60_000 });

const short = z.union([z.string(), z.number(), z.boolean(), z.array(z.string())]);
const minutes = z.record(z.string(), z.number());
const editsSchema = z.strictObject({
  log: z.string().optional(),
  set: z.record(z.string(), short).optional(),
  drop: z.array(z.string()).optional(),
  add: z
    .array(
      z.strictObject({
        question: z.string(),
        answer: short,
        after: z.string(),
        minutes: z.number().optional(),
      }),
    )
    .optional(),
  shift: minutes.optional(),
  misdate: minutes.optional(),
  note: z.array(z.strictObject({ text: z.string(), after: z.string() })).optional(),
  upTo: z.string().optional(),
  figures: z.record(z.string(), z.number()).optional(),
});
const caseSchema = z.strictObject({
  check: z.string(),
  name: z.string().min(3),
  edits: editsSchema,
  expect: z.enum(['fires', 'silent']),
});

const folder = new URL('./cases/', import.meta.url).pathname;
const cases = readdirSync(folder).flatMap((file) =>
  z.array(caseSchema).parse(parse(readFileSync(folder + file, 'utf8')) ?? []),
);

/**
 * Each check is shown a log that it must stop at and one a step short of it; both are edits of a recorded batch.
 * The lines that they step over are those of rules/limits: common practice, no source, where a limit names none.
 */
describe.each(cases)('$check $expect: $name', ({ check, edits, expect: expected }) => {
  it('does', () => {
    const story = editedStory(book, edits as Parameters<typeof editedStory>[1]);
    const fired = findingsOf(book, story).map((finding) => finding.check);
    if (expected === 'fires') expect(fired).toContain(check);
    else expect(fired).not.toContain(check);
  });
});

it.each(book.review.map(({ id }) => id))('%s has a case that fires it and one that does not', (id) => {
  const kinds = cases.filter((one) => one.check === id).map((one) => one.expect);
  expect([...new Set(kinds)].sort()).toEqual(['fires', 'silent']);
});
