import * as z from 'zod';
import { bandsSchema } from './bands.ts';
import { conditionSchema } from './condition-schema.ts';
import { signals } from './signals.ts';

/** Ids here may begin with a figure: `2.7-5.5`, `12-or-more`. */
const name = z
  .string()
  .regex(/^[A-Za-z0-9][A-Za-z0-9.]*(-[A-Za-z0-9.]+)*$/, 'an id is words or figures joined by hyphens');
const words = z.string().trim().min(2);
const share = z.number().positive().lt(1);

/** How often a cause shows a finding, in words that a maker can judge. */
export const likelihoodWords = ['almost-always', 'often', 'sometimes', 'rarely'] as const;
const likelihoodWord = z.enum(likelihoodWords);

const findingSchema = z.strictObject({
  id: name,
  ask: words,
  short: words.optional(),
  how: words,
  where: z.array(name).min(1).describe('the trouble stages at which the check can be made'),
  minutes: z.number().positive(),
  money: z.number().nonnegative().describe('consumables, US dollars'),
  risk: z.enum(['none', 'some', 'much']).describe('what the check itself can do to the one who makes it'),
  caution: z
    .strictObject({ signal: z.enum(signals), say: words })
    .optional()
    .describe('said before the check; every check with a risk has one'),
  bands: bandsSchema.optional(),
  now: z
    .literal(true)
    .optional()
    .describe('the check is made anew: what the log says of an earlier one does not count'),
  gate: name.optional().describe('the check makes sense only where this gate is open'),
  choices: z.record(
    name,
    z.strictObject({
      say: words,
      also: z.array(words).optional(),
      share: share.describe('how common the answer is among batches where the question makes sense'),
      log: conditionSchema.optional().describe('what in the log of the batch already says so'),
      alarm: name.optional().describe('the choice of the alarm question that this answer amounts to'),
    }),
  ),
});

const spokenSchema = z.strictObject({ ask: words, short: words.optional(), how: words });

const causeSchema = z.strictObject({
  id: name,
  name: words.describe('a few words, for lists'),
  say: words.describe('the cause in one sentence'),
  because: words.describe('how it does that'),
  proof: words,
  cure: words,
  dose: z
    .strictObject({ needs: z.array(z.string()).min(1), say: words, else: words })
    .optional()
    .describe('doses for this batch; `else` where the log lacks what they need'),
  prevent: words,
  danger: words.describe('what happens if it is left alone'),
  log: words.describe('what to write down'),
  'back-to': name.optional().describe('the stage of the talk at which the cure begins'),
  source: z.union([name, z.strictObject({ id: name, where: words })]),
  odds: z.record(name, z.number().positive()).describe('weights by trouble stage'),
  likely: z.record(name, z.record(name, likelihoodWord)),
});

const complaintSchema = z.strictObject({
  id: name,
  say: words,
  also: z.array(words).min(1),
  stages: z.array(name).min(1),
  core: z.array(name).min(1),
  possible: z.array(name),
  sets: z
    .array(
      z.strictObject({
        finding: name,
        among: z.array(name).min(1),
        stages: z.array(name).min(1).optional().describe('only at these trouble stages'),
      }),
    )
    .optional()
    .describe('answers that the complaint itself gives'),
  alarm: name.optional().describe('the choice of the alarm question that comes before any check'),
});

export const diagnosisFileSchema = z.strictObject({
  causes: z.array(causeSchema).optional(),
  findings: z.array(findingSchema).optional(),
  complaints: z.array(complaintSchema).optional(),
  gates: z
    .array(
      z.strictObject({
        id: name,
        say: words.describe('what is so when the gate is open'),
        open: conditionSchema.optional().describe('the gate is shut until this is known to hold'),
        shut: conditionSchema.optional().describe('the gate is open until this is known to hold'),
      }),
    )
    .optional()
    .describe('what must be so for a check to make sense'),
  talk: z
    .strictObject({
      stage: spokenSchema,
      words: spokenSchema,
      complaint: spokenSchema,
      right: spokenSchema,
      next: spokenSchema,
    })
    .optional()
    .describe('what the talk itself asks in a trouble'),
  weighing: z
    .strictObject({
      words: z.record(likelihoodWord, share),
      most: share.describe('the words of one finding under one cause add up to no more than this'),
      fit: z.strictObject({ core: z.literal(1), possible: share, other: share }),
      'group-power': share.describe('later answers of a group count as their likelihood to this power'),
      risk: z.strictObject({ none: z.literal(0), some: z.number(), much: z.number() }),
      settled: share.describe('the belief at which a cause is taken as found'),
      'worth-asking': z
        .number()
        .positive()
        .describe('nat of expected gain below which no check is worth its cost'),
      'two-causes': z.strictObject({ under: share, after: z.number().int().positive() }),
      stages: z
        .array(z.strictObject({ id: name, say: words, also: z.array(words).optional(), talk: z.array(name) }))
        .min(1)
        .describe('the trouble stages in their order, each with the stages of the talk that it covers'),
      groups: z.array(z.array(name).min(2)).describe('findings that say the same thing twice'),
      source: name,
    })
    .optional(),
});

type DiagnosisFile = z.infer<typeof diagnosisFileSchema>;
export type Cause = NonNullable<DiagnosisFile['causes']>[number];
export type Finding = NonNullable<DiagnosisFile['findings']>[number];
export type Complaint = NonNullable<DiagnosisFile['complaints']>[number];
export type Gate = NonNullable<DiagnosisFile['gates']>[number];
export type Weighing = NonNullable<DiagnosisFile['weighing']>;
export type TroubleTalk = NonNullable<DiagnosisFile['talk']>;
export type LikelihoodWord = (typeof likelihoodWords)[number];

/** All of rules/diagnosis, checked and joined. */
export interface Diagnosis {
  causes: Cause[];
  findings: Finding[];
  complaints: Complaint[];
  gates: Gate[];
  talk: TroubleTalk;
  weighing: Weighing;
}
