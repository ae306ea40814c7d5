import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { BadInputError } from '../../src/chemistry/bad-input-error.ts';
import { coolingLine, coolingTimeS, tankTimeConstantS } from '../../src/chemistry/cool.ts';
import { readingsFromText } from '../../src/chemistry/cooling-readings.ts';
import { OutOfRangeError } from '../../src/chemistry/out-of-range-error.ts';
import { convert } from '../../src/quantity/units.ts';
import { expectRange, expectWithin, run } from './run.ts';

const kelvin = (fahrenheit: number): number => convert(fahrenheit, 'degF', 'degC') + 273.15;
const celsius = (fahrenheit: number): number => convert(fahrenheit, 'degF', 'degC');
// Newton's law with a time constant of 5 h, air at 70 °F, start at 175 °F, worked out.
const fahrenheitAfter = (minutes: number): number => 70 + 105 * Math.exp(-minutes / 300);
const readingsAt = (...minutes: number[]): string =>
  minutes.map((m) => `${m}min:${fahrenheitAfter(m).toFixed(6)}degF`).join(',');
const shed = { ambient: celsius(70), target: celsius(100) };

describe("a tank cools by Newton's law", () => {
  // Worked out from a time constant of 5 h; tolerances 0.02 h and 0.2 °F.
  test('from 175 to 100 °F in 70 °F air it takes 6.26 h', () => {
    expectWithin(coolingTimeS(kelvin(175), kelvin(100), kelvin(70), 18_000) / 3600, 6.26, 0.02);
  });

  test('after 3 h it is at 127.6 °F', () => {
    expectWithin(coolingTimeS(kelvin(175), kelvin(127.625), kelvin(70), 18_000) / 3600, 3, 0.02);
  });

  test('40 US gal of fuel losing 16 W/K has a time constant of 4.60 h and is at 100 °F in 5.76 h', () => {
    const timeConstantS = tankTimeConstantS(126.2, 2100, 16);
    expectWithin(timeConstantS / 3600, 4.6, 0.05);
    expectWithin(coolingTimeS(kelvin(175), kelvin(100), kelvin(70), timeConstantS) / 3600, 5.76, 0.1);
  });
});

describe('readings tell when a tank is cool', () => {
  test('readings on the 5 h line put 100 °F at 375.8 min, 335.8 min after the last', () => {
    const result = run('cool', { ...shed, readings: readingsAt(0, 20, 40) });
    expectWithin(result.minutes as number, 375.8, 0.5);
    expectWithin(result.remaining as number, 335.8, 0.5);
    expectWithin(result.timeConstant as number, 5, 0.01);
  });

  test('the clock of the readings need not start at zero', () => {
    const late = run('cool', { ...shed, readings: readingsAt(100, 160) });
    expectWithin(late.minutes as number, 375.8, 0.5);
  });

  test('uneven readings are averaged', () => {
    const rough = '0min:175.5degF,30min:164.5degF,60min:156.2degF,90min:147.6degF';
    expectWithin(run('cool', { ...shed, readings: rough }).minutes as number, 375, 15);
  });

  test('degrees and minutes, hours and seconds may be mixed', () => {
    expect(readingsFromText('0s:80degC, 0.5h:176degF ,45 min : 340.15 K')).toEqual([
      { timeS: 0, temperatureK: 353.15 },
      { timeS: 1800, temperatureK: 353.15 },
      { timeS: 2700, temperatureK: 340.15 },
    ]);
  });
});

describe('readings that say nothing are refused', () => {
  test.each([
    '',
    '0min:175degF',
    'warm',
    '0min:175degF,0min:160degF',
    '20min:175degF,10min:160degF',
    '0min:175,20min:160',
    '0min:175degF,,20min:160degF',
  ])('"%s"', (readings) => {
    expect(() => run('cool', { ...shed, readings })).toThrow(/not a list of readings/);
  });

  test('readings that rise', () => {
    expect(() => run('cool', { ...shed, readings: '0min:150degF,20min:160degF' })).toThrow(BadInputError);
  });

  test('a target the air will not let it reach, or one already passed', () => {
    const readings = readingsAt(0, 20);
    expect(() => run('cool', { ...shed, readings, target: celsius(70) })).toThrow(OutOfRangeError);
    expect(() => run('cool', { ...shed, readings, target: celsius(174) })).toThrow(OutOfRangeError);
  });

  test('a reading below the air', () => {
    expect(() => run('cool', { ...shed, readings: '0min:75degF,20min:65degF' })).toThrow(OutOfRangeError);
  });

  test('each quantity has two ends', () => {
    expectRange((k) => coolingTimeS(k, 310, 294, 18_000), 310, 473.15, 0.1);
    expectRange((k) => coolingTimeS(350, k, 294, 18_000), 294.01, 350, 0.1);
    expectRange((kg) => tankTimeConstantS(kg, 2100, 16), 0.01, 100_000, 0.005);
    expectRange((cp) => tankTimeConstantS(100, cp, 16), 500, 5000, 1);
    expectRange((ua) => tankTimeConstantS(100, 2100, ua), 0.01, 10_000, 0.005);
    expect(() => coolingTimeS(350, 310, 294, 0)).toThrow(OutOfRangeError);
  });
});

test('any exact line is found again', () => {
  const hours = fc.double({ min: 0.5, max: 20, noNaN: true });
  fc.assert(
    fc.property(hours, fc.double({ min: 20, max: 100, noNaN: true }), (tau, above) => {
      const at = (timeS: number) => ({ timeS, temperatureK: 290 + above * Math.exp(-timeS / (tau * 3600)) });
      const line = coolingLine([at(0), at(600), at(1500), at(3000)], 290);
      expect(line.timeConstantS / 3600 / tau).toBeCloseTo(1, 6);
      expect(line.startAboveAirK / above).toBeCloseTo(1, 6);
    }),
  );
});
