import { describe, expect, it } from 'vitest';
import { evaluate } from '../../src/rulebook/evaluate.ts';
import { rootsOfCondition } from '../../src/rulebook/roots.ts';
import { book } from './cases.ts';

const stageFor = (stages: 'any' | string[]) =>
  stages === 'any' ? (book.stages[0]?.stage ?? '') : (stages[0] ?? '');

const safeWhen = new Map(book.hazards.map((hazard) => [hazard.id, hazard['safe-when']]));

describe('"not sure" counts as unsafe for every stop', () => {
  it.each(book.hazards.map((hazard) => [hazard.id, hazard] as const))('%s', async (id, hazard) => {
    const questions = rootsOfCondition(book, hazard['safe-when']);
    const status = Object.fromEntries(questions.map((question) => [question, 'not-sure' as const]));
    const stage = stageFor(hazard.stages);
    const occasion = { stage, facts: { values: {}, status }, figures: {}, held: [], explained: [] };
    const { unsafe } = await evaluate(book, occasion);
    // Stops may share a question; then one of them holds for it, and the maker is not stopped eight times at once.
    const seen = unsafe.flatMap((stop) => rootsOfCondition(book, safeWhen.get(stop) ?? { all: [] }));
    expect(unsafe.length, id).toBeGreaterThan(0);
    expect(questions.every((question) => seen.includes(question))).toBe(true);
  });
});

describe('no stop is safe before anybody has looked', () => {
  it.each(
    book.hazards.filter((hazard) => hazard.stages !== 'any').map((hazard) => [hazard.id, hazard] as const),
  )('%s', async (id, hazard) => {
    const occasion = {
      stage: stageFor(hazard.stages),
      facts: { values: {}, status: {} },
      figures: {},
      held: [],
      explained: [],
    };
    const { undecided, unsafe } = await evaluate(book, occasion);
    expect(undecided[`stop:${id}`] !== undefined || unsafe.includes(id)).toBe(true);
  });
});

describe('every stop', () => {
  it.each(book.hazards.map((hazard) => [hazard.id, hazard] as const))(
    '%s can be cleared by what it asks',
    (_id, hazard) => {
      const needed = rootsOfCondition(book, hazard.clear['safe-when']);
      const asked = new Set(hazard.clear.ask);
      expect(needed.some((question) => asked.has(question))).toBe(true);
    },
  );
});
