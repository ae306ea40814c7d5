import * as z from 'zod';
import { isUnitId, type UnitId } from '../quantity/units.ts';
import { conditionSchema } from './condition-schema.ts';
import { signals } from './signals.ts';

const name = z.string().regex(/^[A-Za-z0-9]+(-[A-Za-z0-9.]+)*$/, 'an id is words joined by hyphens');
const words = z.string().trim().min(2);
const unit = z.custom<UnitId>(
  (value) => typeof value === 'string' && isUnitId(value),
  'is no unit that we know',
);

/** What a mentor looks for in a log. */
export const reviewCheckSchema = z.strictObject({
  id: name,
  name,
  signal: z.enum(signals),
  fix: z.literal(true).optional().describe('the numbers of the batch may not be used until this is cleared'),
  applies: conditionSchema
    .optional()
    .describe('the check is looked at only where this holds; without it, wherever it can be decided'),
  when: conditionSchema,
  say: words.describe('what the learner is told'),
  because: words,
  source: z.union([name, z.strictObject({ id: name, where: words })]),
  around: z.array(name).min(1).describe('questions whose answers a mentor looks at; the log is read there'),
  praise: words.optional().describe('said when it is in order'),
});

/** A fact that only a review has, worked out from the whole log by the program; written `review.NAME`. */
export const reviewFactSchema = z.strictObject({ name, about: words, unit: unit.optional() });

export const reviewFileSchema = z.strictObject({
  checks: z.array(reviewCheckSchema).optional(),
  facts: z.array(reviewFactSchema).optional(),
});

export type ReviewCheck = z.infer<typeof reviewCheckSchema>;
export type ReviewFactName = z.infer<typeof reviewFactSchema>;
