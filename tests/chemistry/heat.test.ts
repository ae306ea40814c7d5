import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { fuelHeatJ, heatingTimeS, oilHeatJ, waterEvaporationHeatJ } from '../../src/chemistry/heat.ts';
import { methoxideRiseK } from '../../src/chemistry/methoxide-heat.ts';
import { convert } from '../../src/quantity/units.ts';
import { expectRange, expectWithin, run } from './run.ts';

const shed = {
  volume: convert(40, 'galUS', 'L'),
  from: convert(70, 'degF', 'degC'),
  to: convert(140, 'degF', 'degC'),
};

describe('40 US gal of oil from 70 to 140 °F with 4500 W', () => {
  // Choi and Okos 1986 for the heat capacity (from memory), latent heat of IAPWS-95 (looked up), worked out
  // by hand.
  test('dry: 3.058 kWh in 40.8 min (tolerances 0.06 and 1)', () => {
    const result = run('heat', { ...shed, power: 4500 });
    expectWithin(result.energy as number, 3.058, 0.06);
    expectWithin(result.minutes as number, 40.8, 1);
  });

  test('with 1 % of water only warmed: 3.090 kWh in 41.2 min', () => {
    const result = run('heat', { ...shed, power: 4500, water: 1 });
    expectWithin(result.energy as number, 3.09, 0.06);
    expectWithin(result.minutes as number, 41.2, 1);
  });

  test('with that water boiled off: 0.911 kWh more, 53.3 min', () => {
    const result = run('heat', { ...shed, power: 4500, water: 1 });
    expectWithin((result.energyDried as number) - (result.energy as number), 0.911, 0.05);
    expectWithin(result.minutesDried as number, 53.3, 1.5);
  });

  test('losses make it slower and dearer', () => {
    const [tight, leaky] = [
      run('heat', { ...shed, power: 4500 }),
      run('heat', { ...shed, power: 4500, loss: 900 }),
    ];
    expect((leaky.minutes as number) / (tight.minutes as number)).toBeCloseTo(4500 / 3600, 9);
    expect((leaky.energy as number) / (tight.energy as number)).toBeCloseTo(4500 / 3600, 9);
  });
});

describe('heat capacities lie where tables have them', () => {
  // Choi and Okos 1986, fat (from memory): 2.012, 2.035, 2.055 kJ/(kg K).
  test.each([
    [20, 2012],
    [40, 2035],
    [60, 2055],
  ])('oil at %s °C', (celsius, joules) => {
    expectWithin(oilHeatJ(1, celsius + 272.65, celsius + 273.65), joules, 1);
  });

  test('and within 3 % of the old handbook line 1.9330 + 0.0026 t (from memory)', () => {
    for (const celsius of [30, 45, 60]) {
      const line = 1933 + 2.6 * celsius;
      expectWithin(oilHeatJ(1, celsius + 272.65, celsius + 273.65), line, 0.03 * line);
    }
  });

  test('fuel takes 2.0 to 2.24 kJ/(kg K): soy esters from memory, methyl oleate looked up', () => {
    const joules = fuelHeatJ(1, 293.15, 294.15);
    expect(joules).toBeGreaterThanOrEqual(2000);
    expect(joules).toBeLessThanOrEqual(2240);
  });

  test('water takes 2358 kJ/kg at 60 °C and 2256 at 100 °C (IAPWS-95, looked up)', () => {
    expectWithin(waterEvaporationHeatJ(1, 333.15), 2.358e6, 1000);
    expectWithin(waterEvaporationHeatJ(1, 373.15), 2.256e6, 1000);
  });
});

describe('what cannot be heated is refused', () => {
  test('each quantity has two ends', () => {
    expectRange((k) => oilHeatJ(1, k, 403.15), 263.15, 403.15, 0.1);
    expectRange((k) => oilHeatJ(1, 293.15, k), 293.15, 403.15, 0.1);
    expectRange((k) => fuelHeatJ(1, k, 403.15), 263.15, 403.15, 0.1);
    expectRange((k) => waterEvaporationHeatJ(1, k), 273.15, 403.15, 0.1);
    expectRange((w) => heatingTimeS(1, w, 0), 10, 200_000, 1);
    expectRange((w) => heatingTimeS(1, 1000, w), 0, 950, 1);
    expectRange((water) => run('heat', { ...shed, power: 4500, water }), 0, 20, 0.1);
    expectRange((volume) => run('heat', { ...shed, volume, power: 4500 }), 0.01, 100_000, 0.005);
  });

  test('a heater weaker than the losses never gets there', () => {
    expect(() => run('heat', { ...shed, power: 1000, loss: 1000 })).toThrow(/heat loss/);
  });
});

test('more water never means less time', () => {
  const water = fc.double({ min: 0, max: 20, noNaN: true });
  fc.assert(
    fc.property(water, water, (a, b) => {
      const time = (w: number): number => run('heat', { ...shed, power: 4500, water: w }).minutes as number;
      return time(Math.min(a, b)) <= time(Math.max(a, b)) + 1e-9;
    }),
  );
});

describe('dissolving alkali warms methanol', () => {
  // Heat of solution in water (handbook, from memory) used for methanol; tolerance 3 K.
  test('1.20 kg KOH in 33 L: about 19 K; 0.60 kg NaOH: about 10 K', () => {
    expectWithin(methoxideRiseK(1200, 'KOH', 33), 18.65, 3);
    expectWithin(methoxideRiseK(600, 'NaOH', 33), 10.1, 3);
  });

  test('the end temperature is start and rise', () => {
    const result = run('methoxide-heat', {
      catalyst: 1200,
      alkali: 'KOH',
      methanol: 33,
      start: 25,
      purity: 90,
    });
    expect(result.end).toBeCloseTo(25 + (result.rise as number), 9);
    expect(result.rise).toBeCloseTo(methoxideRiseK(1080, 'KOH', 33), 9);
  });

  test('each quantity has two ends', () => {
    expectRange((g) => methoxideRiseK(g, 'KOH', 10), 0, 1200, 1);
    expectRange((l) => methoxideRiseK(0, 'KOH', l), 0.01, 100_000, 0.005);
    const jar = { catalyst: 10, alkali: 'KOH', methanol: 1 };
    expectRange((purity) => run('methoxide-heat', { ...jar, purity }), 50, 100, 1);
  });
});
