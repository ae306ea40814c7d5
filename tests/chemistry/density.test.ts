import { describe, expect, test } from 'vitest';
import { celsiusFromKelvin, kelvinFromCelsius } from '../../src/chemistry/celsius.ts';
import { liquidDensityGPerMl } from '../../src/chemistry/liquid-density.ts';
import { volumeAt20C } from '../../src/chemistry/volume.ts';
import { expectRange, expectWithin, run } from './run.ts';

const at = (liquid: 'oil' | 'fuel' | 'methanol', celsius: number): number =>
  liquidDensityGPerMl(liquid, kelvinFromCelsius(celsius));

describe('liquids have the density that tables give', () => {
  // Equation of state for methanol (looked up); the curve is good to 0.05 %.
  test.each([
    [0, 0.8097],
    [10, 0.8004],
    [15, 0.7957],
    [20, 0.791],
    [25, 0.7863],
    [30, 0.7816],
    [40, 0.7722],
    [50, 0.7626],
    [60, 0.7528],
  ])('methanol at %s °C', (celsius, density) => {
    expectWithin(at('methanol', celsius), density, 0.0005 * density);
  });

  test('oil is 0.9192 at 20 °C (handbook fit, from memory)', () => {
    expectWithin(at('oil', 20), 0.9192, 1e-6);
  });

  test('oil is within 0.002 of Lund, 0.8475 + 0.00030 SV + 0.00014 IV at 15 °C (looked up)', () => {
    expectWithin(at('oil', 15), 0.8475 + 0.0003 * 193 + 0.00014 * 133, 0.002);
  });

  test('fuel is 0.880 at 15 °C, in the 0.86 to 0.90 window of EN 14214 (looked up), 0.876 at 20 °C', () => {
    expectWithin(at('fuel', 15), 0.88, 1e-6);
    expectWithin(at('fuel', 20), 0.876, 0.0005);
  });

  test('fuel expands like methyl oleate, 0.8775 to 0.8593 from 15 to 40 °C (looked up)', () => {
    expectWithin(at('fuel', 15) - at('fuel', 40), 0.8775 - 0.8593, 0.001);
  });
});

describe('a warm volume is less at 20 °C', () => {
  test('100 L of oil at 55 °C is 97.5 L (handbook, from memory; tolerance 0.2)', () => {
    expectWithin(volumeAt20C('oil', 100, kelvinFromCelsius(55)), 97.5, 0.2);
  });

  test('the mass is what it was', () => {
    const warm = run('volume', { volume: 100, temperature: 55 });
    const cold = run('volume', { volume: warm.volumeAt20 as number, temperature: 20 });
    expect(cold.mass).toBeCloseTo(warm.mass as number, 9);
  });

  test('each quantity has two ends', () => {
    expectRange((k) => liquidDensityGPerMl('oil', k), 273.15, 403.15, 0.1);
    expectRange((k) => liquidDensityGPerMl('fuel', k), 273.15, 403.15, 0.1);
    expectRange((k) => liquidDensityGPerMl('methanol', k), 273.15, 333.15, 0.1);
    expectRange((l) => volumeAt20C('oil', l, 293.15), 0.01, 100_000, 0.005);
  });
});

test('a refused temperature is told as a thermometer shows it', () => {
  expect(() => liquidDensityGPerMl('oil', kelvinFromCelsius(150))).toThrow(
    'The oil temperature is 150 °C; this calculation holds from 0 °C to 130 °C (source: handbook).',
  );
});

test('Celsius and kelvin lead back to each other', () => {
  expect(celsiusFromKelvin(kelvinFromCelsius(54))).toBeCloseTo(54, 10);
});
