import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Measured, ofReplicates, propagate, studentFactor95 } from '../../src/quantity/uncertainty.ts';

/** A linear congruential generator (multiplier of Knuth's MMIX, from memory), so that every run draws the same. */
function generator(seed: bigint): () => number {
  let state = seed;
  return () => {
    state = BigInt.asUintN(64, state * 6364136223846793005n + 1442695040888963407n);
    return (Number(state >> 11n) + 0.5) / 2 ** 53;
  };
}

/** Normal draws by Box and Muller. */
function normals(seed: bigint): () => number {
  const random = generator(seed);
  return () => Math.sqrt(-2 * Math.log(random())) * Math.cos(2 * Math.PI * random());
}

function standardDeviation(values: readonly number[]): number {
  const mean = values.reduce((sum, v) => sum + v, 0) / values.length;
  return Math.sqrt(values.reduce((sum, v) => sum + (v - mean) ** 2, 0) / (values.length - 1));
}

describe('the ± of a computed value', () => {
  test('is the published one for g from a pendulum', () => {
    // J. R. Taylor, An Introduction to Error Analysis, chapter 3 (from memory):
    // l = 92.95 ± 0.1 cm, T = 1.936 ± 0.004 s gives g = 979 ± 4 cm/s2.
    const g = propagate(
      ([l = 0, t = 0]) => (4 * Math.PI ** 2 * l) / t ** 2,
      [
        { value: 92.95, plusMinus: 0.1 },
        { value: 1.936, plusMinus: 0.004 },
      ],
    );
    expect(Math.round(g.value)).toBe(979);
    expect(Math.round(g.plusMinus)).toBe(4);
    expect(g.shares[1]).toBeGreaterThan(0.9);
  });

  test('adds squares for a sum, and says which input brings most', () => {
    const sum = propagate(
      (x) => x.reduce((a, b) => a + b, 0),
      [
        { value: 1, plusMinus: 3 },
        { value: 2, plusMinus: 4 },
      ],
    );
    expect(sum.plusMinus).toBeCloseTo(5, 9);
    expect(sum.shares[0]).toBeCloseTo(9 / 25, 9);
    expect(sum.shares[1]).toBeCloseTo(16 / 25, 9);
  });

  const cases: [string, (x: number[]) => number, Measured[]][] = [
    [
      'a product',
      ([a = 0, b = 0]) => a * b,
      [
        { value: 40, plusMinus: 1 },
        { value: 9, plusMinus: 0.4 },
      ],
    ],
    [
      'a quotient',
      ([a = 0, b = 0]) => a / b,
      [
        { value: 28.2, plusMinus: 0.5 },
        { value: 5, plusMinus: 0.1 },
      ],
    ],
    [
      'a dose: (base + titrant × strength) × oil / purity',
      ([base = 0, titrant = 0, strength = 0, oil = 0, purity = 0]) =>
        ((base + titrant * strength) * oil) / purity,
      [
        { value: 7, plusMinus: 0 },
        { value: 2.5, plusMinus: 0.1 },
        { value: 1, plusMinus: 0.03 },
        { value: 150, plusMinus: 3 },
        { value: 0.9, plusMinus: 0.02 },
      ],
    ],
    ['an exponential', ([a = 0]) => Math.exp(-a), [{ value: 2, plusMinus: 0.2 }]],
  ];

  test.each(cases)('agrees within 3 %% with drawing 40,000 times: %s', (_name, f, inputs) => {
    const draw = normals(20240607n);
    const drawn = Array.from({ length: 40000 }, () =>
      f(inputs.map(({ value, plusMinus }) => value + (plusMinus / 2) * draw())),
    );
    const { plusMinus } = propagate(f, inputs);
    expect(Math.abs((2 * standardDeviation(drawn)) / plusMinus - 1)).toBeLessThan(0.03);
  });

  test('is taken from the side that works at the end of a formula’s range', () => {
    const f = ([t = 0]: number[]) => {
      if (t > 60) throw new RangeError('above 60');
      return 2 * t;
    };
    expect(propagate(f, [{ value: 60, plusMinus: 1 }]).plusMinus).toBeCloseTo(2, 6);
    const root = ([t = 0]: number[]) => (t < 10 ? Number.NaN : 3 * t);
    expect(propagate(root, [{ value: 10, plusMinus: 1 }]).plusMinus).toBeCloseTo(3, 6);
  });

  test('is not known, rather than small, when neither side works', () => {
    const f = ([t = 0]: number[]) => {
      if (t !== 5) throw new RangeError('only 5');
      return 1;
    };
    expect(propagate(f, [{ value: 5, plusMinus: 1 }]).plusMinus).toBeNaN();
  });

  test('lets through what the calculation itself refuses', () => {
    expect(() =>
      propagate(() => {
        throw new RangeError('too hot');
      }, []),
    ).toThrow('too hot');
  });

  test('never grows when an input is measured better, and shares add up to one', () => {
    const measured = fc.record({
      value: fc.double({ min: 1, max: 1e4, noNaN: true }),
      plusMinus: fc.double({ min: 1e-6, max: 10, noNaN: true }),
    });
    fc.assert(
      fc.property(
        fc.tuple(measured, measured, measured),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (inputs, tighter) => {
          const f = ([a = 0, b = 0, c = 0]: number[]) => (a * b) / c + a;
          const wide = propagate(f, inputs);
          const [first, ...others] = inputs;
          const narrow = propagate(f, [{ ...first, plusMinus: first.plusMinus * tighter }, ...others]);
          expect(narrow.plusMinus).toBeLessThanOrEqual(wide.plusMinus * (1 + 1e-6));
          expect(wide.shares.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 9);
        },
      ),
    );
  });
});

describe('repeated readings', () => {
  test('give the published mean and standard error for twenty temperatures', () => {
    // JCGM 100:2008 (GUM) 4.4.3 and table 1 (from memory): mean 100.145, s 1.489, s/sqrt(20) 0.333 degC.
    const table1 = [
      96.9, 98.18, 98.25, 98.61, 99.03, 99.49, 99.56, 99.74, 99.89, 100.07, 100.33, 100.42, 100.68, 100.95,
      101.11, 101.2, 101.57, 101.84, 102.36, 102.72,
    ];
    const mean = ofReplicates(table1, 0);
    expect(mean.value).toBeCloseTo(100.145, 3);
    expect(mean.plusMinus / studentFactor95(19)).toBeCloseTo(0.333, 3);
  });

  test('use the published Student factors', () => {
    // Any table of Student's t, two-sided 95 % (for example GUM table G.2; from memory).
    for (const [freedom, factor] of [
      [1, 12.71],
      [2, 4.3],
      [5, 2.57],
      [10, 2.23],
      [20, 2.09],
      [30, 2.04],
      [60, 2.0],
      [1e6, 1.96],
    ] as const) {
      expect(studentFactor95(freedom)).toBeCloseTo(factor, 2);
    }
  });

  test('of one are as good as the instrument', () => {
    expect(ofReplicates([2.5], 0.05)).toEqual({ value: 2.5, plusMinus: 0.05 });
  });

  test('that all agree are still no better than the instrument', () => {
    expect(ofReplicates([2.5, 2.5, 2.5, 2.5], 0.05)).toEqual({ value: 2.5, plusMinus: 0.05 });
  });

  test('that lie further apart have a wider ±', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 5, noNaN: true }),
        fc.double({ min: 1.001, max: 10, noNaN: true }),
        (spread, times) => {
          const near = ofReplicates([10 - spread, 10, 10 + spread], 0.05).plusMinus;
          const far = ofReplicates([10 - spread * times, 10, 10 + spread * times], 0.05).plusMinus;
          expect(near).toBeGreaterThanOrEqual(0.05);
          expect(far).toBeGreaterThanOrEqual(near);
        },
      ),
    );
  });

  // Our own choice of prior weight, tried out: how often the stated ± holds the true value.
  test.each([
    [2, 1, 0.95],
    [3, 1, 0.95],
    [5, 1, 0.95],
    [2, 2, 0.85],
    [3, 2, 0.88],
  ])(
    'of %d with %d times the scatter of the instrument hold the true value at least as often as %d',
    (n, scatter, share) => {
      const draw = normals(987654321n);
      let held = 0;
      for (let trial = 0; trial < 20000; trial++) {
        const values = Array.from({ length: n }, () => 0.05 * scatter * draw());
        const { value, plusMinus } = ofReplicates(values, 0.1);
        if (Math.abs(value) <= plusMinus) held++;
      }
      expect(held / 20000).toBeGreaterThan(share);
    },
  );

  test('of none, or of something that is no number, are refused', () => {
    expect(() => ofReplicates([], 0.1)).toThrow(RangeError);
    expect(() => ofReplicates([2.5, Number.NaN], 0.1)).toThrow(RangeError);
  });
});
