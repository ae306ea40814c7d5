import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { calculations } from '../../src/chemistry/catalogue.ts';

const folder = fileURLToPath(new URL('../../src/chemistry/', import.meta.url));
/** The machinery around the subjects: it holds no formula. */
const MACHINERY = new Set([
  'bad-input-error.ts',
  'calculate.ts',
  'calculation.ts',
  'catalogue.ts',
  'complete-inputs.ts',
  'from-words.ts',
  'oil-profiles.ts',
  'out-of-range-error.ts',
  'read-input.ts',
  'require-range.ts',
  'result-lines.ts',
]);
/** Readers of inputs inside subject files: they hold no formula either. */
const READERS = new Set(['methanolFromInputs']);

interface Documented {
  file: string;
  name: string;
  comment: string;
  parameters: string[];
  body: string;
}

const FUNCTION =
  /\/\*\*((?:(?!\*\/)[\s\S])*)\*\/\nexport function (\w+)\(([\s\S]*?)\): [\w[\]]+ \{([\s\S]*?)\n\}/g;

function functionsOf(file: string): Documented[] {
  const text = readFileSync(folder + file, 'utf8');
  const found = [...text.matchAll(FUNCTION)].map((match) => ({
    file,
    name: match[2] as string,
    comment: (match[1] as string).replace(/\n \* {2,}(?!@)/g, ' ').replace(/\n \* ?/g, '\n'),
    parameters: (match[3] as string)
      .split(',')
      .map((part) => part.trim().split(':')[0]?.trim() ?? '')
      .filter((name) => /^\w+$/.test(name)),
    body: match[4] as string,
  }));
  const exported = [...text.matchAll(/^export (?:async )?function (\w+)/gm)].map((match) => match[1]);
  expect(
    found.map(({ name }) => name),
    `${file}: an exported function without a doc comment`,
  ).toEqual(exported);
  return found.filter(({ name }) => !READERS.has(name));
}

const subjects = readdirSync(folder).filter((file) => file.endsWith('.ts') && !MACHINERY.has(file));
const documented = subjects.flatMap(functionsOf);
const cases = documented.map((entry): [string, Documented] => [`${entry.file} ${entry.name}`, entry]);

const tagged = (comment: string, tag: string): string[] =>
  comment.split('\n').filter((line) => line.startsWith(`@${tag}`));
/** Everything after a tag up to the next one, in one line. */
const whole = (comment: string, tag: string): string =>
  (new RegExp(`@${tag}([\\s\\S]*?)(?=\\n@|$)`).exec(comment)?.[1] ?? '').replace(/\s+/g, ' ').trim();

test('the reader of doc comments finds the functions', () => {
  expect(documented.length).toBeGreaterThan(50);
  expect(documented.map(({ name }) => name)).toContain('boughtAlkaliGPerL');
});

describe('a doc comment is a contract', () => {
  test.each(cases)('%s names each parameter with its unit', (_, { comment, parameters }) => {
    const params = tagged(comment, 'param');
    expect(params.map((line) => line.split(/\s+/)[1])).toEqual(parameters);
    for (const line of params) expect(line).toMatch(/\[[^\]]+\]/);
  });

  test.each(cases)('%s names the unit of its result', (_, { comment }) => {
    expect(tagged(comment, 'returns')).toHaveLength(1);
    expect(whole(comment, 'returns')).toMatch(/\[[^\]]+\]/);
  });

  test.each(cases)('%s says when it throws', (_, { comment, body }) => {
    const throws = /require\w+\(|throw |Error\(|bad\w+\(/.test(body);
    if (throws) expect(tagged(comment, 'throws').length).toBeGreaterThan(0);
    for (const line of tagged(comment, 'throws'))
      expect(line).toMatch(/@throws (OutOfRangeError|BadInputError) {2}\S/);
  });

  test.each(cases)('%s has a source and an example', (_, { comment }) => {
    expect(whole(comment, 'source')).toMatch(/^[a-z][a-z0-9-]+/);
    expect(whole(comment, 'example')).not.toBe('');
  });
});

async function callables(): Promise<Record<string, unknown>> {
  const modules = await Promise.all(subjects.map((file) => import(/* @vite-ignore */ folder + file)));
  return Object.assign({}, ...modules);
}

describe('an example in a doc comment is true', () => {
  test.each(cases)('%s', async (_, { comment }) => {
    const match = /^(.*?) \/\/ (-?[\d.]+(?:e\d+)?)/.exec(whole(comment, 'example'));
    expect(match, 'an example reads: call // number').not.toBeNull();
    const [, call, printed] = match as unknown as [string, string, string];
    const names = await callables();
    const value: unknown = new Function(...Object.keys(names), `return ${call}`)(...Object.values(names));
    const wanted = Number(printed);
    // One unit in the last printed digit.
    const [digits = '', exponent = '0'] = printed.split('e');
    const lastDigit = 10 ** (Number(exponent) - (digits.split('.')[1]?.length ?? 0));
    expect(typeof value).toBe('number');
    expect(Math.abs((value as number) - wanted), `${call} gives ${value}`).toBeLessThanOrEqual(lastDigit);
  });
});

describe('sources', () => {
  const listed = parse(
    readFileSync(fileURLToPath(new URL('../../rules/sources.yaml', import.meta.url)), 'utf8'),
  ) as {
    sources: { id: string }[];
  };
  const ids = new Set(listed.sources.map(({ id }) => id));

  test.each(
    Object.values(calculations).map(({ name, sources }): [string, readonly string[]] => [name, sources]),
  )('%s cites what rules/sources.yaml lists', (_, sources) => {
    expect(sources.length).toBeGreaterThan(0);
    expect(sources.filter((id) => !ids.has(id))).toEqual([]);
  });

  test.each(cases)('%s opens its source with a listed id', (_, { comment }) => {
    const id = /^[a-z0-9-]+/.exec(whole(comment, 'source'))?.[0] ?? '';
    expect(ids).toContain(id);
  });

  test('ranges cite listed sources', () => {
    const cited = subjects.flatMap((file) =>
      [...readFileSync(folder + file, 'utf8').matchAll(/requireRange\([^;]*?'([a-z0-9-]+)'\s*,?\s*\);/g)].map(
        (m) => m[1] ?? '',
      ),
    );
    expect(cited.length).toBeGreaterThan(50);
    expect([...new Set(cited)].filter((id) => !ids.has(id))).toEqual([]);
  });
});

test('names in the catalogue are their own keys and hold house units', () => {
  const units = new Set(
    [
      'degC',
      'K',
      'L',
      'mL',
      'm3',
      'g',
      'kg',
      'min',
      'h',
      'W',
      'kWh',
      'ppm',
      '%',
      '1',
      'mg KOH/g',
      'g/L',
      'mol/L',
      'g/mL',
    ].concat([
      'g/mol',
      'mol/mol',
      'L/min',
      'kJ/kg',
      'g I2/100 g',
      'MJ/kg',
      'kPa',
      'm',
      '1/h',
      'BV/h',
      'money',
      'text',
    ]),
  );
  for (const [key, calculation] of Object.entries(calculations)) {
    expect(calculation.name).toBe(key);
    for (const { unit } of [...Object.values(calculation.inputs), ...Object.values(calculation.outputs)]) {
      expect(units).toContain(unit);
    }
  }
});
