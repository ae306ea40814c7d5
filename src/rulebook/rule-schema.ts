import * as z from 'zod';
import { isUnitId, type UnitId } from '../quantity/units.ts';
import { bandsSchema } from './bands.ts';
import { conditionSchema } from './condition-schema.ts';
import { signals } from './signals.ts';

const name = z.string().regex(/^[A-Za-z0-9]+(-[A-Za-z0-9.]+)*$/, 'an id is words joined by hyphens');
const words = z.string().trim().min(2);
const span = z.tuple([z.number(), z.number()]);
const time = z
  .string()
  .regex(/^\d+(\.\d+)? (min|h|day)$/, 'a time is written like "30 min", "8 h" or "2 day"');
const unit = z.custom<UnitId>(
  (value) => typeof value === 'string' && isUnitId(value),
  'is no unit that we know',
);
const row = z.string().regex(/^[a-z-]+\/[a-z0-9-]+$/, 'a decision row is written "stage/row"');
const sourceRef = z.union([name, z.strictObject({ id: name, where: words })]);

const choices = z.record(name, z.strictObject({ say: words, also: z.array(words).optional() }));
const answer = z.union([
  z.strictObject({ choice: choices }),
  z.strictObject({ many: choices }),
  z.strictObject({
    quantity: z.strictObject({
      unit,
      plausible: span,
      possible: span,
      reads: z.number().positive().describe('± of the usual instrument, in the unit'),
    }),
  }),
  z.strictObject({
    duration: z.strictObject({ plausible: span, possible: span, reads: z.number().positive() }),
  }),
  z.strictObject({
    'yes-no': z.strictObject({
      yes: words,
      no: words,
      also: z
        .strictObject({ yes: z.array(words).optional(), no: z.array(words).optional() })
        .optional()
        .describe('other words that mean it'),
    }),
  }),
  z.strictObject({ clock: z.literal(true) }),
  z.strictObject({ text: z.literal(true) }),
]);

export const questionSchema = z.strictObject({
  id: name,
  part: name.optional(),
  ask: words,
  short: words.optional(),
  how: words,
  answer,
  bands: bandsSchema.optional(),
  purpose: z.enum(['record', 'decide']),
  when: conditionSchema.optional(),
  moment: z
    .boolean()
    .optional()
    .describe('true: holds for the moment only, asked again after a long absence'),
  once: z.boolean().optional().describe('true: one answer holds for the whole batch'),
  after: time.optional().describe('wait this long before asking'),
  waitFor: words.optional().describe('what the wait is for, in a few words'),
});

/** Stands in a stage's list for a question that is written elsewhere. */
const useSchema = z.strictObject({ use: name });

const operand = z.union([
  z
    .string()
    .regex(/^((limit|minutes)\.)?[A-Za-z0-9]+(-[A-Za-z0-9]+)*$/, 'is a fact, limit.NAME or minutes.QUESTION'),
  z.number(),
  z.strictObject({ fact: z.string(), else: z.union([z.number(), z.string()]) }),
  z.strictObject({ text: z.string() }),
]);

const formulaSchema = z.strictObject({
  fact: name,
  about: words,
  unit,
  formula: z.string().min(1).max(500),
  with: z.record(z.string().regex(/^[a-zA-Z][a-zA-Z0-9]*$/), operand),
  source: sourceRef,
  setting: z
    .enum(['at-most', 'at-least'])
    .optional()
    .describe('a temperature that people set or keep to: told plainly, rounded to the safe side'),
  say: words.optional(),
});

const calculationSchema = z.strictObject({
  calculation: z.string(),
  about: words,
  with: z.record(z.string(), operand),
  gives: z.record(name, z.string()),
  say: words.optional(),
});

export const adviceSchema = z.strictObject({
  id: name,
  decides: z.union([row, z.array(row)]).optional(),
  when: conditionSchema,
  signal: z.enum(signals).optional(),
  say: words,
  because: words,
  source: sourceRef,
  then: z
    .strictObject({
      'ask-again': z.array(name).min(1).optional(),
      after: time.optional(),
      go: name.optional(),
      end: z.enum(['rejected', 'abandoned']).optional(),
    })
    .optional(),
});

const leaveSchema = z.strictObject({ to: name, when: conditionSchema.optional(), say: words.optional() });

export const stageSchema = z.strictObject({
  stage: name,
  title: words,
  about: words,
  vessel: name.optional(),
  parts: z.array(z.strictObject({ id: name, title: words })).optional(),
  questions: z.array(z.union([questionSchema, useSchema])).min(1),
  compute: z.array(z.union([formulaSchema, calculationSchema])).optional(),
  advice: z.array(adviceSchema).min(1),
  'unsafe-to-leave': z
    .array(z.strictObject({ when: conditionSchema, say: words }))
    .optional()
    .describe('when the maker must not walk away, and what to do first'),
  leave: z.array(leaveSchema).min(1),
});

export const hazardFileSchema = z.strictObject({
  questions: z.array(questionSchema).optional(),
  hazards: z
    .array(
      z.strictObject({
        id: name,
        name,
        decides: z.union([row, z.array(row)]).optional(),
        signal: z.enum(signals),
        now: z
          .literal(true)
          .optional()
          .describe('it is happening: dealt with before what only bars the way on'),
        stages: z.union([z.literal('any'), z.array(name).min(1)]),
        asks: z.array(name).optional(),
        'safe-when': conditionSchema,
        say: words,
        stop: words.describe('what must be true before going on'),
        because: words,
        source: sourceRef,
        clear: z.strictObject({
          ask: z.array(name).min(1),
          'safe-when': conditionSchema,
          session: z.literal('new').optional().describe('asked only when the batch is opened again'),
          say: words.optional(),
          go: z
            .array(z.strictObject({ to: name, when: conditionSchema }))
            .min(1)
            .optional()
            .describe('ways to another stage, instead of clearing the stop here'),
        }),
      }),
    )
    .optional(),
});

export const limitFileSchema = z.strictObject({
  limits: z.array(
    z.strictObject({
      id: name,
      is: words,
      value: z.number(),
      unit,
      source: name,
      where: z.string().optional(),
      seen: z.string().optional(),
      from: z.union([z.string(), z.number()]).optional(),
      note: z.string().optional(),
    }),
  ),
});

export const sourceFileSchema = z.strictObject({
  sources: z.array(
    z.strictObject({
      id: name,
      cite: words,
      kind: z.string(),
      seen: z.string(),
      note: z.string().optional(),
    }),
  ),
});

export const flowFileSchema = z.strictObject({ stages: z.array(name).min(1) });

/**
 * The decisions that the trade expects of a stage, one row each; a rule names the row it covers with `decides`.
 * A row that no rule covers says why.
 */
export const decisionFileSchema = z.strictObject({
  stage: name,
  rows: z.record(name, z.union([words, z.strictObject({ row: words, 'left-out': words })])),
});

export const wordsFileSchema = z.strictObject({
  words: z.array(z.strictObject({ term: words, also: z.array(words).optional(), means: words })),
});

export type Question = z.infer<typeof questionSchema>;
export type AnswerKind = Question['answer'];
export type Operand = z.infer<typeof operand>;
export type Formula = z.infer<typeof formulaSchema>;
export type CalculationUse = z.infer<typeof calculationSchema>;
export type Computation = Formula | CalculationUse;
export type Advice = z.infer<typeof adviceSchema>;
export type Leave = z.infer<typeof leaveSchema>;
export type StageText = z.infer<typeof stageSchema>;
export type Hazard = NonNullable<z.infer<typeof hazardFileSchema>['hazards']>[number];
export type Decisions = z.infer<typeof decisionFileSchema>;
export type Limit = z.infer<typeof limitFileSchema>['limits'][number];
export type Source = z.infer<typeof sourceFileSchema>['sources'][number];
export type Word = z.infer<typeof wordsFileSchema>['words'][number];
export type SourceRef = z.infer<typeof sourceRef>;
