import { readFileSync } from 'node:fs';
import { describe, expect, it, vi } from 'vitest';
import { parse } from 'yaml';
import * as z from 'zod';
import { answersShown, whyItFired } from '../../src/review/finding-lines.ts';
import { type Finding, findingsOf } from '../../src/review/findings.ts';
import { tellStory } from '../../src/review/story.ts';
import { demoLog } from '../review/edited-log.ts';
import { book } from '../rulebook/cases.ts';

// A machine under load is slow, not wrong.
vi.setConfig({ testTimeout: 60_000 });

const planted = z.array(
  z.strictObject({
    log: z.string(),
    faults: z.array(
      z
        .strictObject({
          check: z.string(),
          fault: z.string().min(10),
          seen: z.record(z.string(), z.string()).optional(),
          says: z.string().optional(),
        })
        .refine(({ seen, says }) => seen !== undefined || says !== undefined, 'needs seen or says'),
    ),
    collateral: z.array(z.strictObject({ check: z.string(), because: z.string().min(10) })),
  }),
);
const logs = planted.parse(
  parse(readFileSync(new URL('./planted-faults.yaml', import.meta.url).pathname, 'utf8')),
);
const demos = z
  .array(z.looseObject({ batch: z.string() }))
  .parse(
    parse(readFileSync(new URL('../../transcripts-demo/batches.yaml', import.meta.url).pathname, 'utf8')),
  )
  .map(({ batch }) => batch);

const found = new Map<string, Finding[]>();
function findingsIn(log: string): Finding[] {
  const known = found.get(log) ?? findingsOf(book, tellStory(book, demoLog(log)));
  found.set(log, known);
  return known;
}

const checksIn = (log: string): string[] => findingsIn(log).map(({ check }) => check);

describe.each(logs)('$log', ({ log, faults, collateral }) => {
  it.each(faults)('$check finds that $fault', ({ check, seen, says }) => {
    const finding = findingsIn(log).find((one) => one.check === check);
    expect(finding, `${check} finds nothing`).toBeDefined();
    for (const [question, typed] of Object.entries(seen ?? {})) {
      const shown = finding ? answersShown(finding) : [];
      expect(shown.filter((told) => told.question === question).map(({ text }) => text)).toContain(typed);
    }
    if (says !== undefined) expect(finding?.says).toContain(says);
  });

  it('is explained in words alone, without the name of a fact', () => {
    const story = tellStory(book, demoLog(log));
    for (const finding of findingsIn(log)) {
      expect(whyItFired(book, story, finding), finding.check).not.toMatch(
        /\b(review|status|limit|asked|minutes|visited|left)\.[a-z]|\{/,
      );
    }
  });

  it('holds nothing that is neither planted nor explained', () => {
    const expected = [...faults, ...collateral].map(({ check }) => check);
    expect(checksIn(log).sort()).toEqual([...new Set(expected)].sort());
  });

  it('is listed once for each fault', () => {
    const listed = [...faults, ...collateral].map(({ check }) => check);
    expect(new Set(listed).size).toBe(listed.length);
  });
});

describe('all planted logs together', () => {
  it('are the demo logs that say so', () => {
    expect(logs.map(({ log }) => log)).toEqual(demos.filter((name) => name.startsWith('planted-')));
  });

  it('hold fifteen kinds of fault or more', () => {
    const kinds = new Set(logs.flatMap(({ faults }) => faults.map(({ check }) => check)));
    expect(kinds.size).toBeGreaterThanOrEqual(15);
  });
});

describe('a demo log with nothing planted', () => {
  it.each(demos.filter((name) => !name.startsWith('planted-')))('%s has one finding at most', (log) => {
    expect(checksIn(log).length, checksIn(log).join(', ')).toBeLessThanOrEqual(1);
  });
});
