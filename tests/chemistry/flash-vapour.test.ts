import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  methanolActivityInFuel,
  methanolLeftAtBalancePercent,
  methanolRemovedL,
} from '../../src/chemistry/flash.ts';
import { shareLeftByAirChange, vapourFraction } from '../../src/chemistry/vapour.ts';
import { expectRange, expectWithin, run, runFor } from './run.ts';

describe('methanol that stays in hot fuel', () => {
  // Two group-contribution estimates worked out for methyl oleate, mass percent: modified UNIFAC (Dortmund)
  // and original UNIFAC with looked-up parameters. No measurement was found. Our curve has to lie between
  // them, give or take 2 % of the value.
  test.each([
    [70, 101.325, 5.95149, 6.47819],
    [70, 20, 0.481872, 0.607565],
    [70, 6.0795, 0.134578, 0.171951],
    [70, 1, 0.0215085, 0.0276037],
    [75, 101.325, 3.8258, 4.32652],
    [80, 101.325, 2.80448, 3.22251],
    [80, 20, 0.350783, 0.432421],
    [82.2, 101.325, 2.50127, 2.88237],
    [90, 101.325, 1.78078, 2.04773],
    [90, 6.0795, 0.0775461, 0.0933072],
    [100, 101.325, 1.26426, 1.42536],
    [100, 20, 0.206877, 0.239051],
    [110, 101.325, 0.955085, 1.04434],
    [120, 101.325, 0.751756, 0.791857],
    [120, 1, 0.0066108, 0.00705397],
  ])('at %s °C under %s kPa of methanol', (celsius, kPa, low, high) => {
    const left = methanolLeftAtBalancePercent(celsius + 273.15, kPa);
    expect(left).toBeGreaterThan(low * 0.98);
    expect(left).toBeLessThan(high * 1.02);
  });

  // The same two estimates at infinite dilution.
  test.each([
    [25, 5.85142, 4.26724],
    [64.7, 4.21952, 3.24067],
    [80, 3.6868, 2.95569],
    [100, 3.07388, 2.64649],
  ])('activity coefficient at %s °C lies between the estimates', (celsius, high, low) => {
    const gamma = methanolActivityInFuel(0, celsius + 273.15);
    expect(gamma).toBeGreaterThan(low);
    expect(gamma).toBeLessThan(high);
  });

  test('heat alone does not finish it: at 100 °C more than 0.7 % stays in a closed tank', () => {
    const left = runFor('flash', 'methanolLeft', { fuel: 100, methanol: 4, temperature: 100 });
    expect(left).toBeGreaterThan(0.7);
  });

  test('at 80 °C a sweep that holds 5 kPa brings it under the 0.2 % of EN 14214 (looked up)', () => {
    const swept = { fuel: 100, methanol: 4, temperature: 80, over: 5 };
    expect(runFor('flash', 'methanolLeft', swept)).toBeLessThan(0.2);
  });

  test('below the boiling point of methanol nothing comes over', () => {
    const result = run('flash', { fuel: 100, methanol: 4, temperature: 60 });
    expect(result.methanolLeft).toBe(4);
    expect(result.removed).toBeCloseTo(0, 9);
  });

  test('fuel with less than the balance keeps what it has', () => {
    expect(runFor('flash', 'methanolLeft', { fuel: 100, methanol: 0.5, temperature: 80 })).toBe(0.5);
  });

  test('what comes over is what was in the fuel less what is left', () => {
    const kilograms = 100 / (0.04 / 0.791 + 0.96 / 0.876385);
    expectWithin(methanolRemovedL(100, 4, 0), (0.04 * kilograms) / 0.791, 0.001);
  });

  test('hotter never leaves more', () => {
    const celsius = fc.double({ min: 66, max: 120, noNaN: true });
    fc.assert(
      fc.property(celsius, celsius, (a, b) => {
        const left = (t: number): number => methanolLeftAtBalancePercent(t + 273.15, 101.325);
        return left(Math.max(a, b)) <= left(Math.min(a, b)) + 1e-9;
      }),
    );
  });

  test('each quantity has two ends', () => {
    expectRange((x) => methanolActivityInFuel(x, 353.15), 0, 0.999, 0.0005);
    expectRange((k) => methanolActivityInFuel(0.1, k), 293.15, 393.15, 0.1);
    expectRange((k) => methanolLeftAtBalancePercent(k, 101.325), 293.15, 393.15, 0.1);
    expectRange((kPa) => methanolLeftAtBalancePercent(353.15, kPa), 0.1, 120, 0.05);
    expectRange((l) => methanolRemovedL(l, 4, 1), 0.01, 100_000, 0.005);
    expectRange((from) => methanolRemovedL(100, from, 0), 0, 30, 0.1);
    expectRange((to) => methanolRemovedL(100, 4, to), 0, 4, 0.1);
    expectRange((model) => run('flash', { fuel: 9, methanol: 4, temperature: 80, model }), 0.5, 2, 0.1);
  });
});

describe('methanol vapour in a closed room of 30 m3 at 25 °C', () => {
  // Worked out, ideal gas; 6.0 vol % is the lower flammable limit of NFPA 497 (looked up), 200 ppm the NIOSH
  // and OSHA limit and 6000 ppm the level dangerous to life (looked up).
  test('750 mL is a quarter of the lower flammable limit (tolerance 10 mL)', () => {
    expectWithin(runFor('vapour', 'lflPercent', { liquid: 749.5, room: 30 }), 25, 0.35);
  });

  test('2998 mL reaches it (tolerance 40 mL)', () => {
    expectWithin(runFor('vapour', 'lflPercent', { liquid: 2998, room: 30 }), 100, 1.4);
  });

  test('10.0 mL reaches 200 ppm and 300 mL reaches 6000 ppm', () => {
    expectWithin(runFor('vapour', 'ppm', { liquid: 9.993, room: 30 }), 200, 4);
    expectWithin(runFor('vapour', 'ppm', { liquid: 299.8, room: 30 }), 6000, 100);
  });

  test('1 mL of liquid gives 0.600 L of vapour (tolerance 0.005)', () => {
    expectWithin(vapourFraction(1000, 1000) * 1000, 0.6, 0.005);
  });

  test('air can hold no more than its vapour pressure allows, 16.98 of 101.3 kPa (looked up)', () => {
    expectWithin(vapourFraction(1_000_000, 1), 16.98 / 101.325, 0.002);
  });

  test('air change lowers the mean; the figure for a spill that evaporates at once stays', () => {
    const closed = run('vapour', { liquid: 750, room: 30 });
    const aired = run('vapour', { liquid: 750, room: 30, airChanges: 6 });
    // Well-mixed room, worked out: (1 - exp(-6)) / 6.
    expectWithin((aired.ppm as number) / (closed.ppm as number), 0.1663, 0.0005);
    expect(aired.lflAtOnce).toBe(closed.lflAtOnce);
    expect(closed.lflAtOnce).toBe(closed.lflPercent);
  });

  test('more air never means more vapour', () => {
    const changes = fc.double({ min: 0, max: 100, noNaN: true });
    fc.assert(
      fc.property(changes, changes, (a, b) => {
        return shareLeftByAirChange(Math.max(a, b), 1) <= shareLeftByAirChange(Math.min(a, b), 1) + 1e-9;
      }),
    );
  });

  test('each quantity has two ends', () => {
    expectRange((mL) => vapourFraction(mL, 30), 0, 1_000_000, 1);
    expectRange((m3) => vapourFraction(10, m3), 1, 100_000, 0.5);
    expectRange((n) => shareLeftByAirChange(n, 1), 0, 100, 0.1);
    expectRange((h) => shareLeftByAirChange(1, h), 0, 24, 0.1);
  });
});
