import { describe, expect, it, vi } from 'vitest';
import { runProgram } from './run-program.ts';

vi.setConfig({ testTimeout: 60_000 });

const json = (...args: string[]) => {
  const { code, out } = runProgram(['calc', ...args, '--json']);
  return { code, body: JSON.parse(out) };
};

describe('calc', () => {
  it('titrates: 3 mL of 1 g/L NaOH on 1 mL of oil is acid value 4.574, 2.30 % FFA (worked example, computed from AOCS Ca 5a-40, method text looked up)', () => {
    const { code, body } = json('titration', 'titrant=3mL', 'reagent=NaOH');
    expect(code).toBe(0);
    expect(body.result.acidValue.value).toBeCloseTo(4.574, 2);
    expect(body.result.ffa.value).toBeCloseTo(2.299, 2);
    expect(body.result.acidValue.unit).toBe('mg KOH/g');
    expect(body.result.acidValue.plusMinus).toBeGreaterThan(0);
    expect(body.sources).toContain('aocs-ca-5a-40');
  });

  it('gives the same answer in gallons and in litres', () => {
    const inLitres = json('dose', 'oil=151.416471L', 'titrant=2.5mL', 'catalyst=KOH', 'purity=90%');
    const inGallons = json('dose', 'oil=40gal', 'titrant=2.5mL', 'catalyst=KOH', 'purity=90%');
    expect(inGallons.body.result.catalyst.value).toBeCloseTo(inLitres.body.result.catalyst.value, 3);
  });

  it('shows figures with ±, unit and source to a person', () => {
    const { out, code } = runProgram(['calc', 'titration', 'titrant=2.5mL', 'reagent=KOH']);
    expect(code).toBe(0);
    expect(out).toMatch(/acidValue\s+2\.7\d? ± 0\.\d+ mg KOH\/g/);
    expect(out).toContain('source: ');
  });

  it('takes a mole ratio as a plain number', () => {
    const { code, body } = json('dose', 'oil=100L', 'ffa=1%', 'catalyst=KOH', 'ratio=6');
    expect(code).toBe(0);
    // 25.62 % of the volume of soybean oil at 6:1: computed from the molar mass and densities of the handbooks.
    expect(body.result.methanol.value).toBeCloseTo(25.6, 0);
  });

  it('lists the calculations, and what one of them takes', () => {
    expect(runProgram(['calc']).out).toContain('second-stage');
    expect(runProgram(['calc', 'heat']).out).toContain('power=NUMBERW');
  });

  it.each([
    [['dancing'], 'There is no calculation "dancing"'],
    [['titration', 'titre=3mL'], 'has no input "titre". It takes: sample, titrant'],
    [['titration', 'titrant=3', 'reagent=KOH'], 'needs its unit, like titrant=3mL'],
    [['titration', 'titrant=3kg', 'reagent=KOH'], '"titrant=3kg"'],
    [['titration', 'titrant=lots', 'reagent=KOH'], '"titrant=lots"'],
    [['titration', 'titrant', 'reagent=KOH'], 'write them as key=value'],
    [['titration', 'titrant=3mL', 'titrant=4mL', 'reagent=KOH'], '"titrant" is given twice'],
    [['titration', 'titrant=3mL'], 'needs "reagent"'],
    [['titration', 'titrant=3mL', 'reagent=LiOH'], 'use one of: NaOH, KOH'],
    [['titration', 'titrant=-3mL', 'reagent=KOH'], 'titrant'],
    [['boiling', 'altitude=90000m'], 'altitude'],
  ])('%j is refused in one line that says what would be right', (args, says) => {
    const plain = runProgram(['calc', ...args]);
    expect(plain.code).toBe(2);
    expect(plain.error).toContain(says);
    expect(plain.error.trim().split('\n')).toHaveLength(1);
    const { code, body } = json(...args);
    expect(code).toBe(2);
    expect(body.error.message).toContain(says);
  });
});
