import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { individualsChart } from '../../src/review/control-chart.ts';

/**
 * NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2 "Individuals Control Charts", flow rate of ten batches.
 * Looked up at second hand: several public test suites quote the page with these readings and these printed results.
 */
const flowRates = [49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1];

/** Up and down by turns about 10. */
const steady = Array.from({ length: 20 }, (_, index) => (index % 2 === 0 ? 9 : 11));

describe('the worked example of the handbook', () => {
  const chart = individualsChart(flowRates);

  it('has the printed centre line, mean moving range and limits', () => {
    expect(chart?.centre).toBeCloseTo(50.81, 4);
    expect(chart?.meanRange).toBeCloseTo(1.8778, 4);
    expect(chart?.upper).toBeCloseTo(55.8041, 4);
    expect(chart?.lower).toBeCloseTo(45.8159, 4);
  });

  it('is in control, as the handbook says', () => {
    expect(chart?.outside).toEqual([]);
    expect(chart?.jumps).toEqual([]);
  });

  // Upper limit of the ranges from the common factor 3.267, quoted at second hand for these readings as 6.1349.
  it('has the upper range limit that others work out from it', () => {
    expect(chart?.rangeUpper).toBeCloseTo(6.1349, 3);
  });
});

it('the factor for ranges is that of two normal readings', () => {
  // Worked out: d2 = 2 / √π, d3 = √(2 - 4 / π), factor 1 + 3 d3 / d2.
  const factor = 1 + (3 * Math.sqrt(2 - 4 / Math.PI)) / (2 / Math.sqrt(Math.PI));
  const chart = individualsChart([1, 2, 1, 2, 1]);
  expect(chart?.rangeUpper).toBeCloseTo(factor, 2);
});

describe('what is marked', () => {
  it('a reading beyond a limit, and the jump to it and back', () => {
    const chart = individualsChart([...steady, 30, ...steady]);
    expect(chart?.outside).toEqual([{ index: 20, side: 'above' }]);
    expect(chart?.jumps).toEqual([20, 21]);
  });

  it('eight in a row on one side are a run, seven are not', () => {
    const shifted = (count: number) => Array.from({ length: count }, (_, index) => 12 + (index % 2));
    const eight = individualsChart([...steady, 9, ...shifted(8), 9]);
    expect(eight?.outside).toEqual([]);
    expect(eight?.runs).toEqual([{ first: 21, last: 28, side: 'above' }]);
    expect(individualsChart([...steady, 9, ...shifted(7), 9])?.runs).toEqual([]);
  });

  it('a reading on the centre line ends a run', () => {
    const left = [9, 9, 9, 9];
    const right = [11, 11, 11, 11, 11, 11, 11, 11];
    const values = [...left, 10, ...left, ...right];
    expect(individualsChart(values)?.centre).toBe(10);
    expect(individualsChart(values)?.runs).toEqual([{ first: 9, last: 16, side: 'above' }]);
  });

  it('equal readings are never outside, whatever their sum rounds to', () => {
    const chart = individualsChart(Array.from({ length: 9 }, () => 0.1));
    expect(chart).toMatchObject({ outside: [], jumps: [], runs: [] });
  });
});

it('one reading has no range and no chart', () => {
  expect(individualsChart([])).toBeUndefined();
  expect(individualsChart([4])).toBeUndefined();
});

it('another unit or another zero moves the lines and marks the same readings', () => {
  const readings = fc.array(fc.integer({ min: 0, max: 1000 }), { minLength: 2, maxLength: 60 });
  fc.assert(
    fc.property(
      readings,
      fc.integer({ min: 1, max: 9 }),
      fc.integer({ min: -50, max: 50 }),
      (values, scale, zero) => {
        const one = individualsChart(values);
        const other = individualsChart(values.map((value) => value * scale + zero));
        expect(other?.outside).toEqual(one?.outside);
        expect(other?.runs).toEqual(one?.runs);
        expect(other?.jumps).toEqual(one?.jumps);
        expect(other?.upper).toBeCloseTo((one?.upper ?? 0) * scale + zero, 6);
      },
    ),
    { seed: 20260302, numRuns: 200 },
  );
});
