import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { calculations } from '../../src/chemistry/catalogue.ts';
import { publishedChecks } from './published.ts';
import { allowed, type PublishedCheck } from './published-check.ts';

const listed = parse(readFileSync(new URL('../../rules/sources.yaml', import.meta.url), 'utf8')) as {
  sources: { id: string; seen: string }[];
};
const sources = new Map(listed.sources.map((source) => [source.id, source]));

const titled = publishedChecks.map((check): [string, PublishedCheck] => [
  `${check.what} (${check.source}, ${check.where}, ${check.seen})`,
  check,
]);

describe('ours agrees with what was published', () => {
  test.each(titled)('%s', (_, check) => {
    const ours = check.run();
    const off = Math.abs(ours - check.published);
    expect(
      off,
      `ours ${ours}, published ${check.published} ${check.unit}, allowed ${allowed(check)}`,
    ).toBeLessThanOrEqual(allowed(check) * (1 + 1e-9));
  });
});

describe('the table of published values', () => {
  test('holds at least 60, half of them looked up', () => {
    expect(publishedChecks.length).toBeGreaterThanOrEqual(60);
    const lookedUp = publishedChecks.filter(({ seen }) => seen === 'looked-up');
    expect(lookedUp.length).toBeGreaterThanOrEqual(30);
  });

  test('names a source that is listed, and never our own work or bare practice', () => {
    const unknown = publishedChecks.filter(({ source }) => !sources.has(source));
    expect(unknown.map(({ what }) => what)).toEqual([]);
    const own = publishedChecks.filter(
      ({ source }) => source === 'worked-out' || source === 'common-practice',
    );
    expect(own.map(({ what }) => what)).toEqual([]);
  });

  test('says where in the source, and how far ours may lie off', () => {
    for (const check of publishedChecks) {
      expect(check.where.length, check.what).toBeGreaterThan(3);
      expect(allowed(check), check.what).toBeGreaterThan(0);
      expect(Number.isFinite(check.published), check.what).toBe(true);
    }
  });

  test('says so where more than a tenth is allowed', () => {
    const wide = publishedChecks.filter(
      (check) => check.unit !== 'degC' && allowed(check) > 0.1 * Math.abs(check.published) && !check.note,
    );
    // Spans of measured values: the whole span counts as agreement, and `where` gives it.
    expect(wide.filter(({ where }) => !/ to /.test(where)).map(({ what }) => what)).toEqual([]);
  });

  test('does not repeat itself', () => {
    expect(new Set(titled.map(([title]) => title)).size).toBe(titled.length);
  });

  test('names calculations and functions that exist', async () => {
    const folder = new URL('../../src/chemistry/', import.meta.url);
    const files = readdirSync(folder).filter((file) => file.endsWith('.ts'));
    const modules = await Promise.all(
      files.map((file) => import(/* @vite-ignore */ new URL(file, folder).href) as Promise<object>),
    );
    const functions = new Set(modules.flatMap((module) => Object.keys(module)));
    const strangers = publishedChecks.filter(
      ({ of }) => !Object.hasOwn(calculations, of) && !functions.has(of),
    );
    expect(strangers.map(({ of }) => of)).toEqual([]);
  });
});
