import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { methanolForRatioL, methanolForShareL, methanolRatio } from '../../src/chemistry/methanol.ts';
import { meanTriglycerideGPerMol, profileFromText } from '../../src/chemistry/profile.ts';
import { expectRange, expectWithin, run, runFor } from './run.ts';

describe('methanol for 3, 4.5 and 6 moles on a mole of oil', () => {
  // Worked out from the fatty acid tables (looked up) with 0.7910 and 0.9192 g/mL; volume percent, tolerance
  // 0.15.
  test.each([
    ['soybean', 12.81, 19.21, 25.62],
    ['sunflower', 12.75, 19.13, 25.5],
    ['canola', 12.66, 18.99, 25.33],
    ['corn', 12.81, 19.21, 25.61],
    ['palm', 13.22, 19.83, 26.44],
    ['olive', 12.77, 19.16, 25.54],
    ['cottonseed', 12.99, 19.48, 25.97],
    ['peanut', 12.65, 18.98, 25.3],
    ['coconut', 16.99, 25.49, 33.99],
    ['lard', 13.01, 19.51, 26.01],
    ['beef-tallow', 13.15, 19.73, 26.3],
    ['restaurant-grease', 12.9, 19.35, 25.81],
    ['yellow-grease', 13.04, 19.56, 26.08],
  ])('%s', (oil, three, fourAndHalf, six) => {
    const molarMass = meanTriglycerideGPerMol(profileFromText(oil));
    expectWithin(methanolForRatioL(3, 100, molarMass), three, 0.15);
    expectWithin(methanolForRatioL(4.5, 100, molarMass), fourAndHalf, 0.15);
    expectWithin(methanolForRatioL(6, 100, molarMass), six, 0.15);
  });
});

describe('methanol by volume is a molar ratio', () => {
  // Worked out for soybean oil; tolerance 0.05.
  test.each([
    [15, 3.51],
    [18, 4.216],
    [20, 4.68],
    [22, 5.15],
    [25, 5.86],
  ])('%s %% is %s to 1', (methanol, ratio) => {
    expectWithin(runFor('dose', 'ratio', { oil: 100, titrant: 1, catalyst: 'KOH', methanol }), ratio, 0.05);
  });

  test('a dose for 6 moles on soybean oil is 25.6 % by volume', () => {
    const result = run('dose', { oil: 100, titrant: 1, catalyst: 'KOH', ratio: 6 });
    expectWithin(result.methanol as number, 25.62, 0.15);
    expectWithin(result.ratio as number, 6, 1e-9);
  });
});

describe('warm oil and warm methanol are brought to 20 °C', () => {
  test('100 L of oil at 55 °C is dosed as 97.5 L (handbook, from memory; tolerance 0.2)', () => {
    const result = run('methanol', { oil: 100, oilTemperature: 55 });
    expectWithin(result.oilAt20 as number, 97.5, 0.2);
    expectWithin(result.methanol as number, 19.5, 0.05);
  });

  test('warm methanol takes more litres for the same kilograms', () => {
    const cool = run('methanol', { oil: 100 });
    const warm = run('methanol', { oil: 100, methanolTemperature: 30 });
    expect(warm.mass).toBe(cool.mass);
    // Densities of the equation of state, 0.7910 and 0.7816 g/mL (looked up).
    expectWithin((warm.methanol as number) / (cool.methanol as number), 0.791 / 0.7816, 0.001);
  });
});

test('each quantity has two ends', () => {
  expectRange((ratio) => methanolForRatioL(ratio, 100, 872), 0.5, 15, 0.1);
  expectRange((oil) => methanolForRatioL(6, oil, 872), 0.01, 100_000, 0.005);
  expectRange((share) => methanolForShareL(share, 100), 1, 60, 0.1);
  expectRange((oil) => methanolForShareL(20, oil), 0.01, 100_000, 0.005);
  expectRange((methanol) => methanolRatio(methanol, 100, 872), 0, 100, 0.1);
  expect(() => methanolRatio(1, 0, 872)).toThrow(/oil volume/);
});

test('ratio and volume lead back to each other', () => {
  fc.assert(
    fc.property(fc.double({ min: 0.5, max: 15, noNaN: true }), (ratio) => {
      expect(methanolRatio(methanolForRatioL(ratio, 200, 872), 200, 872)).toBeCloseTo(ratio, 9);
    }),
  );
});
