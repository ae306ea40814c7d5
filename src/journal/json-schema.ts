import * as z from 'zod';
import { answerSchema, evaluationSchema } from '../conversation/events.ts';
import { unitTable } from '../quantity/unit-table.ts';
import { recordSchema } from './record-schema.ts';
import { readableVersions } from './upgrade.ts';

/** A line as it may lie on disk: of the present version, or of an older one that is upgraded on reading. */
const lineSchema = recordSchema.extend({ v: z.literal(readableVersions) }).meta({
  title: 'A record of a Batchside journal',
  description: 'One line of a journal. Form only: numbers, chain and times are checked over the whole file.',
});

// Named once and referred to, where they would be written out a dozen times.
answerSchema.register(z.globalRegistry, { id: 'answer' });
evaluationSchema.register(z.globalRegistry, { id: 'evaluation' });

/** zod says nothing about a check that is our own, and our only one of these is the unit. */
function isUnit(schema: z.core.$ZodType): boolean {
  return schema._zod.def.type === 'custom';
}

/** JSON Schema, draft 2020-12, of one line of a journal. */
export function journalSchema(): z.core.JSONSchema.BaseSchema {
  return z.toJSONSchema(lineSchema, {
    target: 'draft-2020-12',
    unrepresentable: 'any',
    override: ({ zodSchema, jsonSchema }) => {
      if (isUnit(zodSchema)) Object.assign(jsonSchema, { type: 'string', enum: Object.keys(unitTable) });
    },
  });
}
