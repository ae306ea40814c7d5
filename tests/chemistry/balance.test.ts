import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type Charge,
  type Products,
  reactionProducts,
  worstExtraSoapKg,
} from '../../src/chemistry/balance.ts';
import { layersOf } from '../../src/chemistry/layers.ts';
import { profileFromText } from '../../src/chemistry/profile.ts';
import { expectRange, expectWithin, run, runFor } from './run.ts';

const soybean = profileFromText('soybean');
const triolein = profileFromText('C18:1');
const oil100 = { triglycerideKg: 100, freeFattyAcidKg: 0, waterKg: 0, alkaliKg: 0, alkali: 'KOH' } as const;
const sum = (products: Products): number => Object.values(products).reduce((total, kg) => total + kg, 0);

describe('100 parts of oil, all of it converted', () => {
  // Triolein: the textbook example in Van Gerpen and others (from memory). Soybean: worked out. Tolerance
  // 0.02.
  test.each([
    ['triolein', triolein, 10.86, 100.45, 10.4],
    ['soybean', soybean, 11.02, 100.46, 10.56],
  ])('%s', (_, profile, methanol, ester, glycerol) => {
    const products = reactionProducts({ ...oil100, methanolKg: 22 }, 100, profile);
    expectWithin(22 - products.methanol, methanol, 0.02);
    expectWithin(products.ester, ester, 0.02);
    expectWithin(products.glycerol, glycerol, 0.02);
  });

  test('about 10 of methanol in, 100 of fuel and 10 of glycerin out (government text, looked up)', () => {
    const products = reactionProducts({ ...oil100, methanolKg: 22 }, 100, soybean);
    expectWithin(products.ester, 100, 1);
    expectWithin(products.glycerol, 10, 1);
  });
});

describe('free fatty acid becomes soap', () => {
  // Stoichiometry on oleic acid, worked out in the manner of the NREL report; tolerance 0.02.
  const sour = { triglycerideKg: 95, freeFattyAcidKg: 5, waterKg: 0, methanolKg: 22 } as const;

  test('5 parts eat 0.708 NaOH and make 5.39 soap and 0.319 water', () => {
    const products = reactionProducts({ ...sour, alkaliKg: 1, alkali: 'NaOH' }, 100, soybean);
    expectWithin(1 - products.alkali, 0.708, 0.01);
    expectWithin(products.soap, 5.39, 0.02);
    expectWithin(products.water, 0.319, 0.005);
  });

  test('5 parts eat 0.993 KOH and make 5.67 soap', () => {
    const products = reactionProducts({ ...sour, alkaliKg: 2, alkali: 'KOH' }, 100, soybean);
    expectWithin(2 - products.alkali, 0.993, 0.01);
    expectWithin(products.soap, 5.67, 0.02);
  });

  test('too little alkali leaves free acid over', () => {
    const products = reactionProducts({ ...sour, alkaliKg: 0.354, alkali: 'NaOH' }, 100, soybean);
    expectWithin(products.freeFattyAcid, 2.5, 0.01);
    expect(products.alkali).toBeCloseTo(0, 12);
  });

  test('1 % in a kilogram of oil makes 11.4 g potassium soap and 0.64 g water (worked out)', () => {
    const kilogram = { triglycerideKg: 0.99, freeFattyAcidKg: 0.01, waterKg: 0, methanolKg: 0.2 };
    const products = reactionProducts({ ...kilogram, alkaliKg: 0.01, alkali: 'KOH' }, 100, soybean);
    expectWithin(products.soap * 1000, 11.4, 0.1);
    expectWithin(products.water * 1000, 0.64, 0.01);
  });

  test('water can make more soap, but only as far as alkali is left', () => {
    // 1000 mg/kg of water in 1 L of oil answers at worst to 2.9 g KOH (worked out).
    const worst = worstExtraSoapKg({ water: 0.92e-3, alkali: 1 }, 'KOH');
    expectWithin((worst / 0.320558) * 56.105, 2.9, 0.05);
    expect(worstExtraSoapKg({ water: 1, alkali: 0 }, 'KOH')).toBe(0);
  });
});

describe('100 L of soybean oil at 6 to 1, complete', () => {
  const batch = { oil: 100, ffa: 0, water: 0, methanol: 25.62, catalyst: 900, conversion: 100 };

  test('gives 105.4 L of fuel at 20 °C (worked out, tolerance 0.5)', () => {
    expectWithin(runFor('balance', 'fuel', batch), 105.4, 0.5);
  });

  test('and 15.6 L of lower layer with 58 % of the leftover methanol (tolerance 1)', () => {
    expectWithin(runFor('balance', 'glycerinLayer', batch), 15.6, 1);
  });

  test('leftover methanol parts 42 to 58 (Zhou and Boocock 2006, from memory)', () => {
    const result = run('balance', batch);
    const [above, below] = [result.methanolInFuel as number, result.methanolInGlycerin as number];
    expect(above / (above + below)).toBeCloseTo(0.42, 9);
  });

  test('so the raw fuel layer holds 4.4 % methanol by mass (worked out, tolerance 0.2)', () => {
    const result = run('balance', batch);
    const methanolKg = (result.methanolInFuel as number) * 0.791;
    expectWithin((100 * methanolKg) / (methanolKg + (result.fuel as number) * 0.876385), 4.4, 0.2);
  });

  test('a batch with 20 % methanol has a lower layer of 12 to 20 % of the oil (common practice)', () => {
    const trade = { oil: 100, ffa: 1.5, water: 0.05, methanol: 20, catalyst: 1000, conversion: 97 };
    const layer = runFor('balance', 'glycerinLayer', trade);
    expect(layer).toBeGreaterThan(12);
    expect(layer).toBeLessThan(20);
  });
});

describe('nothing is made or lost', () => {
  const kg = fc.double({ min: 0, max: 10, noNaN: true });
  const charges = fc.record({
    triglycerideKg: fc.double({ min: 1, max: 200, noNaN: true }),
    freeFattyAcidKg: kg,
    waterKg: kg,
    methanolKg: fc.double({ min: 40, max: 60, noNaN: true }),
    alkaliKg: kg,
    alkali: fc.constantFrom('KOH' as const, 'NaOH' as const),
  });
  const conversion = fc.double({ min: 0, max: 100, noNaN: true });

  test('mass in is mass out, for any oil', () => {
    const oils = fc.constantFrom('soybean', 'coconut', 'palm', 'yellow-grease', 'soybean:60%,palm:40%');
    fc.assert(
      fc.property(charges, conversion, oils, (charge, share, oil) => {
        const products = reactionProducts(charge, share, profileFromText(oil));
        const massIn =
          charge.triglycerideKg +
          charge.freeFattyAcidKg +
          charge.waterKg +
          charge.methanolKg +
          charge.alkaliKg;
        expect(sum(products) / massIn).toBeCloseTo(1, 10);
      }),
    );
  });

  // Atoms of each substance when the oil is triolein, and its molar mass in g/mol (IUPAC masses, from
  // memory).
  const atoms: Record<keyof Products, { C: number; H: number; O: number; K: number; molar: number }> = {
    triglyceride: { C: 57, H: 104, O: 6, K: 0, molar: 885.453 },
    ester: { C: 19, H: 36, O: 2, K: 0, molar: 296.495 },
    glycerol: { C: 3, H: 8, O: 3, K: 0, molar: 92.094 },
    methanol: { C: 1, H: 4, O: 1, K: 0, molar: 32.042 },
    freeFattyAcid: { C: 18, H: 34, O: 2, K: 0, molar: 282.468 },
    soap: { C: 18, H: 33, O: 2, K: 1, molar: 320.558 },
    water: { C: 0, H: 2, O: 1, K: 0, molar: 18.015 },
    alkali: { C: 0, H: 1, O: 1, K: 1, molar: 56.1053 },
  };
  const count = (masses: Products, element: 'C' | 'H' | 'O' | 'K'): number =>
    (Object.keys(atoms) as (keyof Products)[]).reduce(
      (total, name) => total + (masses[name] / atoms[name].molar) * atoms[name][element],
      0,
    );
  const asProducts = (charge: Charge): Products => ({
    triglyceride: charge.triglycerideKg,
    ester: 0,
    glycerol: 0,
    methanol: charge.methanolKg,
    freeFattyAcid: charge.freeFattyAcidKg,
    soap: 0,
    water: charge.waterKg,
    alkali: charge.alkaliKg,
  });

  test.each(['C', 'H', 'O', 'K'] as const)('every atom of %s is still there', (element) => {
    fc.assert(
      fc.property(charges, conversion, (charge, share) => {
        const potash = { ...charge, alkali: 'KOH' as const };
        const products = reactionProducts(potash, share, triolein);
        expect(count(products, element)).toBeCloseTo(count(asProducts(potash), element), 4);
      }),
    );
  });

  test('the mass that the calculation states is that of oil, methanol and alkali', () => {
    const result = run('balance', {
      oil: 100,
      ffa: 2,
      water: 0.1,
      methanol: 20,
      catalyst: 1100,
      conversion: 97,
    });
    expectWithin(result.massIn as number, 91.92 + 20 * 0.791 + 1.1, 0.001);
  });
});

describe('what cannot be is refused', () => {
  const batch = { oil: 100, ffa: 1, water: 0.1, methanol: 20, catalyst: 900, conversion: 97 };

  test('more conversion than the methanol allows', () => {
    expect(() => run('balance', { ...batch, methanol: 10, conversion: 95 })).toThrow(
      /The conversion is 95 %; this calculation holds from 0 % to [\d.]+ %/,
    );
    expect(() => run('balance', { ...batch, methanol: 10, conversion: 70 })).not.toThrow();
  });

  test('each quantity has two ends', () => {
    expectRange((oil) => run('balance', { ...batch, oil, methanol: 0, conversion: 0 }), 0.01, 100_000, 0.005);
    expectRange((ffa) => run('balance', { ...batch, ffa }), 0, 30, 0.1);
    expectRange((water) => run('balance', { ...batch, water }), 0, 5, 0.1);
    expectRange((conversion) => run('balance', { ...batch, conversion }), 0, 100, 0.1);
    expectRange((purity) => run('balance', { ...batch, purity }), 50, 100, 0.1);
  });

  test('a negative mass', () => {
    expect(() => reactionProducts({ ...oil100, methanolKg: -1 }, 0, soybean)).toThrow(/methanol/);
    expect(() => worstExtraSoapKg({ water: -1, alkali: 1 }, 'KOH')).toThrow(/water/);
    expect(() => worstExtraSoapKg({ water: 1, alkali: -1 }, 'KOH')).toThrow(/alkali/);
    const products = reactionProducts({ ...oil100, methanolKg: 22 }, 100, soybean);
    expect(() => layersOf({ ...products, soap: -1 })).toThrow(/soap/);
  });
});
