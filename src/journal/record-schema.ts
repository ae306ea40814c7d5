import * as z from 'zod';
import { eventSchema } from '../conversation/events.ts';

/** The version that this program writes. Older ones are upgraded on reading, newer ones refused. */
export const recordVersion = 1;

/** `prev` of the first record. */
export const noHash = '0'.repeat(64);

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
