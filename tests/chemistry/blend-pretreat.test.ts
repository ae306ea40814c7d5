import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { blendedFfaPercent, blendWithL } from '../../src/chemistry/blend.ts';
import { esterificationWaterG, pretreatAcidG, pretreatMethanolG } from '../../src/chemistry/pretreat.ts';
import { expectRange, expectWithin, run, runFor } from './run.ts';

describe('better oil brings a sour oil down', () => {
  // Worked out, balance of the acid.
  test('30 L at 6.0 % and 70 L at 1.0 % make 2.50 % (tolerance 0.01)', () => {
    expectWithin(blendedFfaPercent(30, 6, 70, 1), 2.5, 0.01);
    expectWithin(runFor('blend', 'with', { oil: 30, ffa: 6, withFfa: 1, target: 2.5 }), 70, 0.3);
  });

  test('in a blend of 2.0 % from 6.0 % and 0.5 % oil, 27.3 % is the sour one (tolerance 0.1)', () => {
    expectWithin(runFor('blend', 'share', { oil: 30, ffa: 6, withFfa: 0.5, target: 2 }), 27.3, 0.1);
  });

  test('oil that is already at the target needs none', () => {
    expect(blendWithL(30, 2, 1, 2)).toBe(0);
  });

  test('a target the better oil cannot reach is refused', () => {
    expect(() => blendWithL(30, 6, 2, 2)).toThrow(/free fatty acid wanted/);
    expect(() => blendWithL(30, 6, 2.5, 2)).toThrow(/better oil/);
    expect(() => blendWithL(30, 6, 1, 6.1)).toThrow(/free fatty acid wanted/);
  });

  test('each quantity has two ends', () => {
    expectRange((oil) => blendWithL(oil, 6, 1, 2), 0.01, 100_000, 0.005);
    expectRange((ffa) => blendWithL(30, ffa, 1, 2), 2, 100, 0.1);
    expectRange((ffa) => blendedFfaPercent(30, ffa, 70, 1), 0, 100, 0.1);
    expectRange((ffa) => blendedFfaPercent(30, 6, 70, ffa), 0, 100, 0.1);
    expect(() => blendedFfaPercent(30, 6, -1, 1)).toThrow(/second oil/);
  });

  test('the acid of the blend is the acid of its parts', () => {
    const acid = fc.double({ min: 0, max: 20, noNaN: true });
    fc.assert(
      fc.property(acid, acid, fc.double({ min: 0.05, max: 0.95, noNaN: true }), (a, b, t) => {
        const [good, sour] = [Math.min(a, b), Math.max(a, b)];
        fc.pre(sour - good > 0.5);
        const target = good + t * (sour - good);
        const added = blendWithL(40, sour, good, target);
        const [whole, parts] = [(40 + added) * target, 40 * sour + added * good];
        expect(whole / parts).toBeCloseTo(1, 6);
      }),
    );
  });
});

describe('acid treatment by the handbook recipe', () => {
  // Van Gerpen and others, NREL/SR-510-36244 (from memory): 2.25 g methanol and 0.05 g sulfuric acid for
  // each g.
  const litresOf100Kg = 100 / 0.9192;
  const result = run('pretreat', { oil: litresOf100Kg, ffa: 10, target: 1 });

  test('100 kg of oil at 10 % takes 22.5 kg, which is 28.4 L, of methanol (tolerance 0.1)', () => {
    expectWithin(pretreatMethanolG(10_000) / 1000, 22.5, 0.1);
    expectWithin(result.methanol as number, 28.4, 0.1);
  });

  test('and 0.50 kg, which is 0.277 L of 98 %, of sulfuric acid (tolerance 0.01)', () => {
    expectWithin(pretreatAcidG(10_000) / 1000, 0.5, 0.01);
    expectWithin(result.acid as number, 277, 10);
    expectWithin(result.acidMass as number, 500, 10);
  });

  test('that methanol is 19.8 mol for each mol of acid (worked out, tolerance 0.1)', () => {
    expectWithin(pretreatMethanolG(282.468) / 32.042, 19.8, 0.1);
  });

  test('a kilogram of free acid makes 0.0638 kg of water (stoichiometry, worked out)', () => {
    expectWithin(esterificationWaterG(1000), 63.8, 0.05);
    expectWithin(result.water as number, 63.8 * 9, 1);
  });

  test('the sulfuric acid will eat 1.14 g KOH for each gram (stoichiometry, worked out)', () => {
    expectWithin((result.neutralisingKoh as number) / (result.acidMass as number), 1.144, 0.001);
  });

  test('each quantity has two ends', () => {
    expectRange((ffa) => run('pretreat', { oil: 100, ffa, target: 1 }), 1, 40, 0.1);
    expectRange((target) => run('pretreat', { oil: 100, ffa: 10, target }), 0.25, 10, 0.1);
    expectRange((oil) => run('pretreat', { oil, ffa: 10, target: 1 }), 0.01, 100_000, 0.005);
    for (const call of [pretreatMethanolG, pretreatAcidG, esterificationWaterG]) {
      expect(() => call(0)).not.toThrow();
      expect(() => call(-1)).toThrow(/needs at least 0 g/);
    }
  });
});
