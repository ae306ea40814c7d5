import * as z from 'zod';
import { type Condition, operators } from './condition.ts';

const leaf = z.strictObject({
  fact: z.string().min(1),
  operator: z.enum(operators),
  value: z.union([
    z.string(),
    z.number(),
    z.boolean(),
    z.array(z.string()).min(1),
    z.strictObject({ fact: z.string().min(1) }),
  ]),
});

/** Empty groups are refused: the engine would call them true. */
export const conditionSchema: z.ZodType<Condition> = z.lazy(() =>
  z.union([
    leaf,
    z.strictObject({ all: z.array(conditionSchema).min(1) }),
    z.strictObject({ any: z.array(conditionSchema).min(1) }),
    z.strictObject({ not: conditionSchema }),
  ]),
);
