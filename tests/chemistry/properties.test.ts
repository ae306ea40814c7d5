import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { calculate, type Result } from '../../src/chemistry/calculate.ts';
import type { Calculation, InputSpec } from '../../src/chemistry/calculation.ts';
import { calculations } from '../../src/chemistry/catalogue.ts';
import type { GivenInputs } from '../../src/chemistry/complete-inputs.ts';
import { METHANOL_AT_20C_G_PER_ML } from '../../src/chemistry/liquid-density.ts';
import { OutOfRangeError } from '../../src/chemistry/out-of-range-error.ts';
import { readQuantity } from '../../src/quantity/read-quantity.ts';
import { convert, convertSpread, isUnitId, type UnitId } from '../../src/quantity/units.ts';
import { seeded } from '../random.ts';
import { monteCarlo, normalFrom } from './properties-monte-carlo.ts';
import { calculationNamed, run } from './run.ts';
import { SAMPLES } from './samples.ts';

// Beside these, "a tighter input never widens a result" stands in calculate.test.ts, the balance of every
// atom in balance.test.ts and the round trip of units in tests/quantity/units.test.ts.
const SEED = { seed: 20_260_412 };
const all = Object.values(calculations);
const named = all.map(({ name }) => [name] as const);

function sampleOf(name: string): Record<string, number | string> {
  const sample = SAMPLES[name];
  if (!sample) throw new Error(`samples.ts has no sample for ${name}`);
  return sample;
}

/** What a maker who thinks in US units types for a unit of the house. */
const US: Partial<Record<UnitId, UnitId>> = {
  degC: 'degF',
  K: 'degFdiff',
  L: 'galUS',
  m3: 'galUS',
  mL: 'flozUS',
  kg: 'lb',
  g: 'oz',
  kPa: 'psi',
  m: 'ft',
  'g/L': 'g/galUS',
};
const TYPED: Partial<Record<UnitId, string>> = {
  degF: 'degF',
  degFdiff: 'degFdiff',
  galUS: 'US gal',
  flozUS: 'US fl oz',
};

const digits = (value: number): string => value.toFixed(12);

function typedIn(value: number, plusMinus: number, from: UnitId, to: UnitId): string {
  const word = TYPED[to] ?? to;
  return `${digits(convert(value, from, to))} ± ${digits(convertSpread(plusMinus, from, to))} ${word}`;
}

/** The line as `calc` reads it: one quantity, turned into the unit of the input. */
function readAs(spec: InputSpec, line: string): { value: number; plusMinus?: number } {
  if (!isUnitId(spec.unit)) throw new Error(`${spec.unit} is no unit of the house`);
  const read = readQuantity(line, { unit: spec.unit });
  if ('problem' in read) throw new Error(`"${line}": ${read.say}`);
  return read.plusMinus === undefined
    ? { value: read.value }
    : { value: read.value, plusMinus: read.plusMinus };
}

type Outcome = Record<string, Result> | 'out of range';

function outcomeOf(calculation: Calculation, given: GivenInputs): Outcome {
  try {
    return calculate(calculation, given).result;
  } catch (error) {
    if (error instanceof OutOfRangeError) return 'out of range';
    throw error;
  }
}

/** The sample, each number scaled, as typed in the units of the house or in US units. */
function typedInputs(calculation: Calculation, scales: readonly number[], us: boolean): GivenInputs {
  return Object.fromEntries(
    Object.entries(sampleOf(calculation.name)).map(([key, sample], index) => {
      const spec = calculation.inputs[key] as InputSpec;
      if (typeof sample === 'string' || !isUnitId(spec.unit)) return [key, { value: sample }];
      const value = sample * (scales[index % scales.length] ?? 1);
      const unit = us ? (US[spec.unit] ?? spec.unit) : spec.unit;
      return [key, readAs(spec, typedIn(value, Math.abs(value) * 0.02, spec.unit, unit))];
    }),
  );
}

describe('a maker in US units gets what a maker in metric units gets', () => {
  const scales = fc.array(fc.double({ min: 0.97, max: 1.03, noNaN: true }), { minLength: 6, maxLength: 6 });

  test.each(named)('%s', (name) => {
    const calculation = calculationNamed(name);
    let answered = 0;
    fc.assert(
      fc.property(scales, (by) => {
        const metric = outcomeOf(calculation, typedInputs(calculation, by, false));
        const us = outcomeOf(calculation, typedInputs(calculation, by, true));
        if (metric === 'out of range' || us === 'out of range') {
          expect(us).toBe(metric);
          return;
        }
        answered += 1;
        for (const [key, { value, plusMinus }] of Object.entries(metric)) {
          const scale = Math.max(Math.abs(value), plusMinus, 1e-6);
          expect(Math.abs((us[key]?.value ?? Number.NaN) - value) / scale, key).toBeLessThan(1e-6);
          expect(Math.abs((us[key]?.plusMinus ?? Number.NaN) - plusMinus) / scale, key).toBeLessThan(1e-4);
        }
      }),
      { ...SEED, numRuns: 25 },
    );
    expect(answered).toBeGreaterThan(5);
  });

  test('most numbers of the catalogue have a US unit to be typed in', () => {
    const units = all.flatMap(({ inputs }) => Object.values(inputs).map(({ unit }) => unit));
    expect(units.filter((unit) => isUnitId(unit) && US[unit] !== undefined).length).toBeGreaterThan(40);
  });
});

describe('more of what costs never asks for less', () => {
  const pair = (min: number, max: number) =>
    fc
      .tuple(fc.double({ min, max, noNaN: true }), fc.double({ min, max, noNaN: true }))
      .map(([a, b]): [number, number] => (a < b ? [a, b] : [b, a]));
  const alkali = fc.constantFrom('KOH', 'NaOH');
  const least = (a: number | undefined, b: number | undefined): void =>
    expect(a ?? Number.NaN).toBeLessThanOrEqual((b ?? Number.NaN) + 1e-9);

  test('more acid, titrated and then dosed, never less catalyst', () => {
    const check = fc.property(
      pair(0, 8),
      alkali,
      fc.double({ min: 80, max: 100, noNaN: true }),
      (mL, kind, purity) => {
        const [less, more] = mL.map((titrant) => {
          const { ffa = Number.NaN } = run('titration', { titrant, reagent: kind });
          return run('dose', { oil: 100, ffa, catalyst: kind, purity });
        });
        least(less?.catalyst, more?.catalyst);
      },
    );
    fc.assert(check, SEED);
  });

  test('weaker alkali never fewer grams', () => {
    const check = fc.property(pair(60, 100), fc.constantFrom('yes', 'no'), ([weak, strong], sameTub) => {
      const grams = (purity: number) =>
        run('dose', { oil: 100, titrant: 2, catalyst: 'KOH', purity, sameTub }).catalyst;
      least(grams(strong), grams(weak));
    });
    fc.assert(check, SEED);
  });

  test('more soap never more batches from a bed', () => {
    const check = fc.property(pair(10, 5000), (soap) => {
      const batches = soap.map(
        (soapIn) => run('bed', { medium: 10, capacity: 500, soapIn, batch: 100, used: 1 }).batchesLeft,
      );
      least(batches[1], batches[0]);
    });
    fc.assert(check, SEED);
  });

  test('a hotter end never less heat, a higher place never a higher boiling point', () => {
    const check = fc.property(pair(30, 120), pair(0, 4000), (ends, heights) => {
      const heats = ends.map((to) => run('heat', { volume: 100, from: 20, to, power: 3000 }).energy);
      least(heats[0], heats[1]);
      const points = heights.map((altitude) => run('boiling', { altitude }).boilingPoint);
      least(points[1], points[0]);
    });
    fc.assert(check, SEED);
  });
});

describe('nothing is made or lost', () => {
  const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });

  test('a blend holds the acid of its two oils', () => {
    const check = fc.property(
      between(1, 500),
      between(3, 12),
      between(0, 1),
      between(1.5, 2.5),
      (oil, ffa, withFfa, target) => {
        const blend = run('blend', { oil, ffa, withFfa, target });
        const added = blend.with ?? Number.NaN;
        const acid = oil * ffa + added * withFfa;
        expect((oil + added) * (blend.ffa ?? Number.NaN)).toBeCloseTo(acid, 6);
        expect(blend.ffa).toBeCloseTo(target, 9);
      },
    );
    fc.assert(check, SEED);
  });

  test('methanol that left the fuel and methanol that stayed are all there was', () => {
    const check = fc.property(
      between(10, 500),
      between(0.5, 8),
      between(66, 118),
      (fuel, methanol, temperature) => {
        const { methanolLeft = Number.NaN, removed = Number.NaN } = run('flash', {
          fuel,
          methanol,
          temperature,
        });
        const massKg = fuel / (methanol / 100 / METHANOL_AT_20C_G_PER_ML + (1 - methanol / 100) / 0.876385);
        const removedKg = removed * METHANOL_AT_20C_G_PER_ML;
        const stayedKg = ((massKg - removedKg) * methanolLeft) / 100;
        expect(removedKg + stayedKg).toBeCloseTo((massKg * methanol) / 100, 6);
      },
    );
    fc.assert(check, SEED);
  });

  test('the two layers share the leftover methanol, and a warm volume keeps its mass', () => {
    const check = fc.property(
      between(15, 30),
      between(60, 97),
      between(0, 90),
      (methanol, conversion, warm) => {
        const batch = { oil: 100, ffa: 1, water: 0.05, methanol, catalyst: 900, conversion };
        const out = run('balance', batch);
        expect(out.fuelLayer).toBeCloseTo((out.fuel ?? Number.NaN) + (out.methanolInFuel ?? Number.NaN), 9);
        const before = run('volume', { volume: 50, temperature: warm });
        const after = run('volume', { volume: before.volumeAt20 ?? Number.NaN, temperature: 20 });
        expect(after.mass).toBeCloseTo(before.mass ?? Number.NaN, 9);
      },
    );
    fc.assert(check, SEED);
  });
});

/** Inputs away from the ends of their ranges, where a draw is not refused. */
const INSIDE: Readonly<Record<string, Record<string, number | string>>> = {
  titration: { blank: 0.2 },
  'free-alkali': { blank: 0.1 },
  'water-release': { from: 31, to: 9 },
  dose: { purity: 90 },
  balance: { purity: 90, conversion: 90, water: 0.4 },
  'methoxide-heat': { purity: 92 },
  'second-stage': { purity: 92 },
  cost: { recovered: 4 },
};
/** An input that may only move by its own ± is drawn from a third of it, or the tails would be refused. */
const NARROW: Readonly<Record<string, GivenInputs>> = {
  forecast: { modelOff: { value: 0, plusMinus: 0.33 } },
};
/** Draws that are refused leave a gap in the spread, so hardly any may be; flash loses those below half its model. */
const MOST_REFUSED = 0.03;
/**
 * Where an input is uncertain by 20 to 30 % and stands below the line or in an exponent, or a result nears zero
 * along a curve, a straight line is too tight: the true spread may be this much larger.
 */
const CURVED: Readonly<Record<string, number>> = { bed: 0.25, vapour: 0.2, forecast: 0.3 };

describe('the ± of the straight line is that of five thousand draws, within 10 %', () => {
  test('the generator draws evenly and its normal deviates have a spread of one', () => {
    const random = seeded(7);
    const drawn = Array.from({ length: 20_000 }, random);
    expect(drawn.reduce((sum, one) => sum + one, 0) / drawn.length).toBeCloseTo(0.5, 2);
    const normal = Array.from({ length: 20_000 }, normalFrom(random));
    expect(normal.reduce((sum, one) => sum + one, 0) / normal.length).toBeCloseTo(0, 1);
    expect(normal.reduce((sum, one) => sum + one * one, 0) / normal.length).toBeCloseTo(1, 1);
  });

  test.each(named)('%s', (name) => {
    const calculation = calculationNamed(name);
    const inputs = { ...sampleOf(name), ...INSIDE[name] };
    const given = Object.fromEntries(Object.entries(inputs).map(([key, value]) => [key, { value }]));
    const { result, inputsUsed } = calculate(calculation, { ...given, ...NARROW[name] });
    const { deviations, refused } = monteCarlo(calculation, inputsUsed, 5000, 41);
    expect(refused).toBeLessThanOrEqual(MOST_REFUSED);
    const spreads = Object.entries(result).filter(
      ([, { plusMinus, value }]) => plusMinus > 1e-9 * Math.abs(value),
    );
    for (const [key, { plusMinus }] of spreads) {
      expect(Math.abs((deviations[key] ?? Number.NaN) / plusMinus - 1), key).toBeLessThan(
        CURVED[name] ?? 0.1,
      );
    }
    expect(spreads.length, 'no output has a spread').toBeGreaterThan(0);
  });
});
