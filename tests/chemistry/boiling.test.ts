import { describe, expect, test } from 'vitest';
import {
  airPressureKPa,
  methanolBoilingPointK,
  methanolVapourPressureByAmbroseKPa,
  methanolVapourPressureKPa,
} from '../../src/chemistry/methanol-boiling.ts';
import { expectRange, expectWithin, run, runFor } from './run.ts';

describe('methanol has the vapour pressure that tables give', () => {
  // Equation of state (looked up); both Antoine fits agree with it within 1 %.
  test.each([
    [15, 9.9],
    [20, 13.03],
    [25, 16.98],
    [30, 21.91],
    [40, 35.52],
    [50, 55.68],
    [60, 84.71],
    [64.7, 102.2],
    [70, 125.41],
    [80, 181.11],
  ])('at %s °C', (celsius, kPa) => {
    const kelvin = celsius + 273.15;
    expectWithin(methanolVapourPressureKPa(kelvin), kPa, 0.01 * kPa);
    expectWithin(methanolVapourPressureByAmbroseKPa(kelvin), kPa, 0.01 * kPa);
  });

  // Ambrose and Sprake 1970 in the form of the NIST WebBook (constants from memory), table worked out from
  // them.
  test.each([
    [15, 9.87],
    [40, 35.43],
    [60, 84.49],
    [80, 180.71],
  ])('Ambrose and Sprake at %s °C', (celsius, kPa) => {
    expectWithin(methanolVapourPressureByAmbroseKPa(celsius + 273.15), kPa, 0.005 * kPa);
  });

  test('96 mmHg at 20 °C (National Research Council safety summary, looked up), within 3 %', () => {
    expectWithin(methanolVapourPressureKPa(293.15), 96 * 0.133322, 0.03 * 12.8);
  });

  test('carried on to 100 °C it still meets the equation of state, 353.7 kPa (looked up)', () => {
    expectWithin(methanolVapourPressureKPa(373.15), 353.7, 0.5);
  });
});

describe('methanol boils lower in the hills', () => {
  test('64.7 °C at sea level (looked up), within 0.3', () => {
    expectWithin(methanolBoilingPointK(101.325) - 273.15, 64.7, 0.3);
  });

  // Worked out from another Antoine set (8.08097, 1582.271, 239.726; from memory) and the standard
  // atmosphere.
  test.each([
    [1000, 61.5],
    [1500, 60.0],
    [2000, 58.5],
    [2500, 57.0],
    [3000, 55.5],
  ])('at %s m it boils at %s °C', (altitude, celsius) => {
    expectWithin(runFor('boiling', 'boilingPoint', { altitude }), celsius, 0.2);
  });

  test('89.87 kPa at 1000 m and 79.50 at 2000 m (US Standard Atmosphere 1976, from memory)', () => {
    expectWithin(airPressureKPa(1000), 89.87, 0.02);
    expectWithin(airPressureKPa(2000), 79.5, 0.02);
  });

  test('boiling point and vapour pressure lead back to each other', () => {
    for (const kPa of [60, 84.5, 101.325]) {
      expect(methanolVapourPressureKPa(methanolBoilingPointK(kPa))).toBeCloseTo(kPa, 8);
    }
  });

  test('bad weather lowers it', () => {
    const { boilingPoint } = run('boiling', { altitude: 0, weather: -3 });
    expect(boilingPoint).toBeLessThan(runFor('boiling', 'boilingPoint', {}));
  });
});

test('each quantity has two ends', () => {
  expectRange(airPressureKPa, -500, 5000, 1);
  expectRange(methanolVapourPressureKPa, 263, 393.15, 0.1);
  expectRange(methanolVapourPressureByAmbroseKPa, 288, 357, 0.1);
  expectRange(methanolBoilingPointK, 20, 120, 0.1);
});
