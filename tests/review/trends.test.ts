import { describe, expect, it } from 'vitest';
import type { BatchRow } from '../../src/review/batch-row.ts';
import { trendLines } from '../../src/review/folder-lines.ts';
import { Trends } from '../../src/review/trends.ts';

const firstDay = Date.UTC(2026, 0, 5, 8);
const dayMs = 86_400_000;

function row(day: number, titration: number, other: Partial<BatchRow> = {}): BatchRow {
  const opened = new Date(firstDay + day * dayMs).toISOString();
  return {
    ...{ batch: `batch-${day}`, opened, last: opened, records: 3, ended: 'finished', stage: 'close' },
    ...{ values: { titration }, stages: [{ stage: 'settle', hours: 18, visits: 1 }] },
    ...{ stops: [], held: [], waitsCutShort: 0, notSure: 0, changes: 0, troubles: 0 },
    ...other,
  };
}

function trendsOf(rows: readonly BatchRow[]) {
  const trends = new Trends(['settle']);
  for (const [index, one] of rows.entries()) trends.add(one, index);
  return trends.drawn((index) => rows[index]?.batch ?? '');
}

const titrationOf = (rows: readonly BatchRow[]) => trendsOf(rows).find(({ id }) => id === 'titration');

/** Titrations that scatter by 0.3 mL about 2 mL, in a fixed order. */
const scatter = [1.8, 2.2, 1.9, 2.1, 2.3, 1.7, 2.0, 2.2, 1.8, 2.1, 1.9, 2.2, 1.8, 2.0, 2.1];
const usual = scatter.map((titration, day) => row(day, titration));

describe('trends over the batches of a folder', () => {
  it('go by the date of the batches, not by the order of the files', () => {
    const backwards = [...usual].reverse();
    expect(titrationOf(backwards)).toEqual(titrationOf(usual));
    expect(titrationOf(backwards)?.last).toBe(2.1);
  });

  it('name the batch that is outside the limits', () => {
    const [outside] = titrationOf([...usual, row(15, 4.5)])?.outside ?? [];
    expect(outside).toMatchObject({ batch: 'batch-15', value: 4.5, side: 'above' });
  });

  it('show a drift before a batch is outside the limits', () => {
    // Oil that turns sourer by 0.05 mL a batch: each batch by itself is still like those before it.
    const drifting = scatter.map((titration, index) => row(15 + index, titration + 0.05 * (index + 1)));
    const trend = titrationOf([...usual, ...drifting]);
    expect(trend?.outside).toEqual([]);
    expect(trend?.runs.at(-1)).toMatchObject({ side: 'above' });
    expect(trend?.runs.at(-1)?.count).toBeGreaterThanOrEqual(8);
  });

  it('draw no limits from four batches, and no lower limit below nothing', () => {
    expect(titrationOf(usual.slice(0, 4))?.limits).toBeUndefined();
    const wide = [0.1, 3, 0.2, 2.8, 0.1].map((titration, day) => row(day, titration));
    expect(titrationOf(wide)?.limits?.lower).toBeUndefined();
    expect(titrationOf(usual)?.limits?.lower).toBeGreaterThan(0);
  });

  it('leave out what was not measured, fault finding alone, and batches without a date', () => {
    const others = [
      row(20, 9, { values: {} }),
      row(21, 9, { ended: 'trouble-only' }),
      row(22, 9, { opened: 'some day' }),
    ];
    expect(titrationOf([...usual, ...others])).toEqual(titrationOf(usual));
  });

  it('draw the hours in each stage', () => {
    const settle = trendsOf(usual).find(({ id }) => id === 'time-in-settle');
    expect(settle).toMatchObject({ count: 15, last: 18, limits: { centre: 18 }, outside: [] });
  });
});

describe('trends in words', () => {
  it('say what is outside, fit 80 columns and say what limits are not', () => {
    const lines = trendLines(
      trendsOf([...usual, row(15, 4.5, { batch: 'the-batch-with-a-very-long-name-of-its-own' })]),
    );
    const text = lines.join('\n').replaceAll(/\n +/g, ' ');
    expect(text).toContain(
      'titration, outside the limits: the-batch-with-a-very-long-name-of-its-own (2026-01-20) 4.50 mL',
    );
    expect(text).toContain('not what is safe or good');
    expect(Math.max(...lines.map((line) => line.length))).toBeLessThanOrEqual(80);
  });

  it('say so when nothing stands out, and when there are too few batches', () => {
    expect(trendLines(trendsOf(usual)).join('\n')).toContain('Nothing is outside its limits');
    const few = trendLines(trendsOf(usual.slice(0, 3))).join('\n');
    expect(few).toContain('from 5 batches on');
    expect(few).not.toContain('Nothing is outside');
  });

  it('show marks of a name, not obey them', () => {
    const lines = trendLines(trendsOf([...usual, row(15, 4.5, { batch: 'a\u001b[2Jb' })]));
    expect(lines.join('\n')).not.toContain('\u001b');
  });
});
