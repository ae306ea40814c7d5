import * as z from 'zod';
import { eventSchema } from '../conversation/events.ts';
import { recordVersion } from './record-format.ts';

/** One line of a journal. */
export const recordSchema = z.strictObject({
  v: z.literal(recordVersion),
  seq: z.int().positive(),
  at: z.iso.datetime(),
  prev: z
    .string()
    .regex(/^[0-9a-f]{64}$/)
    .describe('SHA-256 of the bytes of the line before, without its line feed'),
  event: eventSchema,
});

export type JournalRecord = z.infer<typeof recordSchema>;
