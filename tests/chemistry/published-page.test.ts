import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { calculations } from '../../src/chemistry/catalogue.ts';
import { calculationsPage, type PageMaterial } from '../../src/commands/calculations-page.ts';
import { publishedChecks } from './published.ts';
import { allowed } from './published-check.ts';
import { SAMPLES } from './samples.ts';

const folder = new URL('../../src/chemistry/', import.meta.url);
const files = readdirSync(folder).filter((file) => file.endsWith('.ts'));
const listed = parse(readFileSync(new URL('../../rules/sources.yaml', import.meta.url), 'utf8')) as {
  sources: { id: string; cite: string; seen: string }[];
};

const material: PageMaterial = {
  texts: Object.fromEntries(files.sort().map((file) => [file, readFileSync(new URL(file, folder), 'utf8')])),
  calculations,
  sources: Object.fromEntries(listed.sources.map((source) => [source.id, source])),
  examples: SAMPLES,
  checks: publishedChecks.map((check) => ({ ...check, ours: check.run(), allowed: allowed(check) })),
};
const page = calculationsPage(material);

describe('the page about the calculations', () => {
  test('stands in docs/calculations.md as the program has it', async () => {
    await expect(page).toMatchFileSnapshot('../../docs/calculations.md');
  });

  test.each(Object.values(calculations).map(({ name, outputs }) => [name, outputs] as const))(
    '%s has its inputs, a worked result and its formulas on it',
    (name, outputs) => {
      const section = page.split('\n## ').find((one) => one.startsWith(`${name}\n`)) ?? '';
      expect(section).toContain(`batchside calc ${name} `);
      for (const key of Object.keys(outputs)) expect(section).toContain(`| ${key} |`);
      expect(section).toMatch(/Formulas|It also uses/);
      expect(section).not.toMatch(/undefined|NaN|not known/);
    },
  );

  test('tells every documented formula that a calculation uses once', () => {
    const told = [...page.matchAll(/^- \*\*(\w+)\*\*: /gm)].map((match) => match[1]);
    expect(new Set(told).size).toBe(told.length);
    expect(told).toEqual(expect.arrayContaining(['acidValue', 'coldFilterPluggingByRamosK', 'layersOf']));
  });

  test('shows each check with both numbers and its source', () => {
    const table = page.slice(page.indexOf('## Checked against published values'));
    const rows = table.split('\n').filter((line) => /^\| .* \| (looked up|from memory) \|$/.test(line));
    expect(rows.length).toBe(publishedChecks.length);
  });

  test('is refused when a calculation has no example or a source is not listed', () => {
    expect(() => calculationsPage({ ...material, examples: {} })).toThrow(/no example for titration/);
    expect(() => calculationsPage({ ...material, sources: {} })).toThrow(/no source/);
  });
});
