import { describe, expect, it } from 'vitest';
import { book } from '../rulebook/cases.ts';
import { check, rows } from './understood.ts';

/** The share of lines that must be understood as people mean them. */
const wantedShare = 0.97;

describe('typed answers in the words of people', () => {
  const outcomes = rows.map((row) => check(book, row));
  const shown = (list: typeof outcomes) =>
    list.map(
      ({ row, got }) => `${row.question} "${row.text}" wants ${JSON.stringify(row.wanted)}, got ${got}`,
    );

  it('are at least 400', () => {
    expect(rows.length).toBeGreaterThanOrEqual(400);
  });

  it('are never taken as something that was not meant', () => {
    expect(shown(outcomes.filter((one) => one.wrongTaken))).toEqual([]);
  });

  it(`are understood in ${wantedShare * 100} of 100 cases`, () => {
    const misses = outcomes.filter((one) => !one.right);
    if (misses.length > 0)
      console.info(`${misses.length} of ${rows.length} misread:\n${shown(misses).join('\n')}`);
    expect(1 - misses.length / rows.length).toBeGreaterThanOrEqual(wantedShare);
  });
});
