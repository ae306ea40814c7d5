import { readdirSync, readFileSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { fullFormats } from 'ajv-formats/dist/formats.js';
import { describe, expect, it, vi } from 'vitest';
import * as z from 'zod';
import { answerSchema, eventSchema } from '../../src/conversation/events.ts';
import { journalSchema } from '../../src/journal/json-schema.ts';
import { recordSchema } from '../../src/journal/record-schema.ts';
import { unitTable } from '../../src/quantity/unit-table.ts';
import { demo, demoFile } from './damaged-demo.ts';

vi.setConfig({ testTimeout: 60_000 });

const page = readFileSync(new URL('../../docs/journal.md', import.meta.url), 'utf8');
const folder = new URL('.', `file://${demoFile}`).pathname;
const demos = readdirSync(folder).filter((name) => name.endsWith('.ndjson'));

/** An independent reader of JSON Schema; it knows nothing of zod. */
const ajv = new Ajv2020({ allErrors: true, formats: { 'date-time': fullFormats['date-time'] } });
const validate = ajv.compile(journalSchema());

const valid = (value: unknown) => validate(value);
const example = (event: object) => ({
  v: 2,
  seq: 1,
  at: '2026-03-02T08:00:00.000Z',
  prev: '0'.repeat(64),
  event,
});
const given = (answer: object) => example({ type: 'AnswerGiven', question: 'q', text: 't', answer });

interface SchemaNode {
  properties?: Record<string, SchemaNode & { const?: string }>;
  oneOf?: SchemaNode[];
  items?: SchemaNode;
  additionalProperties?: SchemaNode | boolean;
  $defs?: Record<string, SchemaNode>;
}

/** Every name of a field below a node of the schema. */
function fieldsOf(node: SchemaNode): string[] {
  const own = Object.entries(node.properties ?? {}).flatMap(([name, field]) => [name, ...fieldsOf(field)]);
  const rest = typeof node.additionalProperties === 'object' ? [node.additionalProperties] : [];
  const below = [
    ...(node.oneOf ?? []),
    ...(node.items ? [node.items] : []),
    ...rest,
    ...Object.values(node.$defs ?? {}),
  ];
  return [...own, ...below.flatMap(fieldsOf)];
}

const schema = journalSchema() as SchemaNode;
const events = schema.properties?.event?.oneOf ?? [];
const typeOf = (event: SchemaNode) => event.properties?.type?.const ?? '';

describe('the JSON Schema of a record', () => {
  it('stands in docs/journal.schema.json as the program has it', async () => {
    const text = `${JSON.stringify(journalSchema(), null, 2)}\n`;
    await expect(text).toMatchFileSnapshot('../../docs/journal.schema.json');
  });

  it('has every event', () => {
    const types = eventSchema.options.map((option) => option.shape.type.value);
    expect(events.map(typeOf)).toEqual(types);
    expect(types.length).toBeGreaterThan(20);
  });

  it('has no custom check but that of the unit, so that none is lost in it', () => {
    const customs = new Set<unknown>();
    z.toJSONSchema(recordSchema, {
      unrepresentable: 'any',
      override: ({ zodSchema }) => {
        if (zodSchema._zod.def.type === 'custom') customs.add(zodSchema);
      },
    });
    expect(customs.size).toBe(1);
  });

  it.each(demos)('takes every record of %s as it lies', (name) => {
    const lines = readFileSync(folder + name, 'utf8')
      .trimEnd()
      .split('\n');
    const refused = lines.filter((line) => !valid(JSON.parse(line)));
    expect(refused).toEqual([]);
  });

  it.each(Object.keys(unitTable))('knows the unit %s', (unit) => {
    expect(valid(given({ kind: 'quantity', value: 1, unit, plusMinus: 0 }))).toBe(true);
  });

  const [first = ''] = demo;
  const opened = JSON.parse(first) as Record<string, unknown>;
  const refused: { what: string; record: Record<string, unknown> }[] = [
    { what: 'a newer version', record: { ...opened, v: 3 } },
    { what: 'no number', record: { ...opened, seq: 0 } },
    { what: 'a time without a zone', record: { ...opened, at: '2026-03-02T08:00:00' } },
    { what: 'a day that there is not', record: { ...opened, at: '2026-02-30T08:00:00Z' } },
    { what: 'half a fingerprint', record: { ...opened, prev: 'abc' } },
    { what: 'a field too many', record: { ...opened, extra: 1 } },
    { what: 'no event', record: { ...opened, event: undefined } },
    { what: 'an unknown event', record: example({ type: 'AnswerInvented' }) },
    { what: 'an event field too many', record: example({ type: 'AnswerWithdrawn', extra: 1 }) },
    { what: 'an unknown unit', record: given({ kind: 'quantity', value: 1, unit: 'bucket', plusMinus: 0 }) },
    { what: 'a negative ±', record: given({ kind: 'quantity', value: 1, unit: 'L', plusMinus: -1 }) },
    { what: 'an unknown kind of answer', record: given({ kind: 'perhaps' }) },
  ];
  it.each(refused)('refuses $what, as the program does', ({ record }) => {
    expect(valid(JSON.parse(JSON.stringify(record)))).toBe(false);
    expect(recordSchema.safeParse({ ...record, v: record.v === 3 ? 3 : 2 }).success).toBe(false);
  });
});

/** The part of the page between the heading of an event and the next. */
function sectionOf(heading: string): string {
  const start = page.indexOf(`### ${heading}\n`);
  return start < 0 ? '' : page.slice(start, page.indexOf('\n##', start + 4));
}

describe('docs/journal.md', () => {
  it.each(events.map((event) => [typeOf(event), event] as const))(
    'names every field of %s',
    (type, event) => {
      const section = sectionOf(type);
      expect(section).not.toBe('');
      const own = Object.keys(event.properties ?? {}).filter((name) => name !== 'type');
      expect(own.filter((name) => !section.includes(`\`${name}\``))).toEqual([]);
    },
  );

  it('names every field there is, at any depth', () => {
    const fields = [...new Set(fieldsOf(schema))];
    expect(fields.length).toBeGreaterThan(50);
    expect(fields.filter((name) => !page.includes(`\`${name}\``))).toEqual([]);
  });

  it('names every kind of answer and every unit', () => {
    const kinds = answerSchema.options.map((option) => option.shape.kind.value);
    expect(kinds.filter((kind) => !page.includes(`\`${kind}\``))).toEqual([]);
    expect(Object.keys(unitTable).filter((unit) => !page.includes(`\`${unit}\``))).toEqual([]);
  });

  it('heads no event that there is not', () => {
    const types = new Set(events.map(typeOf));
    const headed = [...page.matchAll(/^### ([A-Z][A-Za-z]+)$/gm)].map(([, name]) => name ?? '');
    expect(headed.filter((name) => !types.has(name))).toEqual([]);
  });
});
