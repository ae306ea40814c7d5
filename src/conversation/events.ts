import * as z from 'zod';
import { isUnitId, type UnitId } from '../quantity/units.ts';

const unit = z.custom<UnitId>((value) => typeof value === 'string' && isUnitId(value));

/** An answer as understood. Numbers are in the question's unit; `typed` keeps what the maker wrote. */
export const answerSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('choice'), choice: z.string() }),
  z.strictObject({ kind: z.literal('many'), choices: z.array(z.string()) }),
  z.strictObject({
    kind: z.literal('quantity'),
    value: z.number(),
    unit,
    plusMinus: z.number().nonnegative(),
    typed: z.strictObject({ value: z.number(), unit }).optional(),
  }),
  z.strictObject({ kind: z.literal('yes-no'), yes: z.boolean() }),
  z.strictObject({ kind: z.literal('clock'), time: z.string().regex(/^\d\d:\d\d$/) }),
  z.strictObject({ kind: z.literal('text'), text: z.string() }),
  z.strictObject({ kind: z.literal('not-sure') }),
  z.strictObject({ kind: z.literal('skipped') }),
]);

const traceSchema = z.strictObject({
  fact: z.string(),
  operator: z.string(),
  value: z.unknown(),
  was: z.unknown().optional(),
  against: z.unknown().optional(),
  met: z.boolean().optional(),
});

const figureSchema = z.strictObject({
  value: z.number(),
  unit,
  plusMinus: z.number().nonnegative(),
  biggest: z.string().optional(),
});

export const evaluationSchema = z.strictObject({
  figures: z.record(z.string(), figureSchema),
  lost: z.array(z.string()),
  refused: z.array(z.strictObject({ fact: z.string(), says: z.string() })),
  true: z.array(z.string()),
  undecided: z.record(z.string(), z.array(z.string())),
  deciding: z.array(z.string()),
  unsafe: z.array(z.string()),
  traces: z.record(z.string(), z.array(traceSchema)),
});

const foundSchema = z.strictObject({ finding: z.string(), choice: z.string() });

/** What was thought of a trouble at one moment. Probabilities are rounded to what is worth showing. */
export const troubleOutcomeSchema = z.strictObject({
  /** Answers that the log of the batch already gives. */
  fromLog: z.array(foundSchema),
  causes: z.array(z.strictObject({ id: z.string(), probability: z.number() })),
  next: z.strictObject({ finding: z.string(), gain: z.number(), cost: z.number() }).optional(),
  settled: z.boolean(),
  two: z.boolean(),
  apart: z.string().optional(),
  /** How each answer speaks for the first causes: natural logarithms of likelihood ratios. */
  evidence: z.record(
    z.string(),
    z.array(z.strictObject({ finding: z.string(), choice: z.string(), weight: z.number() })),
  ),
});

export const requestKinds = [
  'what-can-i-say',
  'how-to',
  'why-ask',
  'how-worked-out',
  'word',
  'where',
  'calculate',
  'how-sure',
  'timers',
  'what-is-left',
  'long-wording',
  'short-wording',
] as const;

/** What a mentor may conclude from a batch. */
export const verdicts = ['repeat-with-someone', 'alone-with-this', 'ready'] as const;

/** What happened outside. Past tense; a batch is the list of these and nothing else. */
export const eventSchema = z.discriminatedUnion('type', [
  z.strictObject({
    type: z.literal('BatchOpened'),
    batch: z.string(),
    program: z.string(),
    rules: z.string().describe('SHA-256 of the rule texts that the talk began under'),
    purpose: z.literal('trouble').optional().describe('opened only to find out what went wrong'),
  }),
  z.strictObject({
    type: z.literal('SessionOpened'),
    program: z.string(),
    rules: z.string(),
    awayMinutes: z.number().nonnegative().describe('since the record before'),
  }),
  z.strictObject({
    type: z.literal('AnswerGiven'),
    question: z.string(),
    answer: answerSchema,
    text: z.string(),
    /** When it was first given, for an answer that is given again after a change before it. */
    givenAt: z.iso.datetime().optional(),
  }),
  z.strictObject({
    type: z.literal('AnswerDoubted'),
    question: z.string(),
    text: z.string(),
    says: z.string(),
    /** What `yes` will then mean. */
    meant: answerSchema,
    /** What `keep` will then mean, where keeping the answer as typed is allowed. */
    typed: answerSchema.optional(),
    /** Two answers to choose between, each with the word that picks it; `yes` then means neither. */
    either: z.array(z.strictObject({ say: z.string(), answer: answerSchema })).optional(),
    /** Set where an earlier answer is being changed: what is settled is the change. */
    changes: z.literal(true).optional(),
    /** What the same line says to later questions of the stage; taken when they come up, if `meant` is confirmed. */
    also: z.array(z.strictObject({ question: z.string(), answer: answerSchema })).optional(),
  }),
  z.strictObject({
    type: z.literal('AnswerNotUnderstood'),
    question: z.string(),
    text: z.string(),
    says: z.string(),
    /** What `yes` will then do: end the wait that runs. */
    settles: z.literal('wait').optional(),
  }),
  z.strictObject({ type: z.literal('AnswerWithdrawn') }),
  z.strictObject({
    type: z.literal('AnswerChanged'),
    question: z.string(),
    answer: answerSchema,
    text: z.string(),
  }),
  /** The answers after a changed one have been given again. */
  z.strictObject({ type: z.literal('ChangeFinished') }),
  z.strictObject({ type: z.literal('RulesEvaluated'), stage: z.string(), outcome: evaluationSchema }),
  z.strictObject({
    type: z.literal('TroubleReported'),
    text: z.string(),
    /** When it was answered first, for trouble that is taken up again after a change before it. */
    givenAt: z.iso.datetime().optional(),
  }),
  /** What a description in plain words was taken to say; nothing of it counts before it is confirmed. */
  z.strictObject({
    type: z.literal('TroubleDescribed'),
    text: z.string(),
    complaints: z.array(z.string()),
    found: z.array(foundSchema),
    stage: z.string().optional(),
    /** Words that nobody types calmly were among them: the alarm is asked first. */
    urgent: z.literal(true).optional(),
  }),
  z.strictObject({ type: z.literal('TroubleWeighed'), outcome: troubleOutcomeSchema }),
  z.strictObject({ type: z.literal('TroubleLeft') }),
  z.strictObject({
    type: z.literal('RequestMade'),
    request: z.enum(requestKinds),
    about: z.string().optional(),
  }),
  z.strictObject({
    type: z.literal('WhatIfAsked'),
    question: z.string(),
    answer: answerSchema,
    text: z.string(),
  }),
  z.strictObject({
    type: z.literal('WhatIfAnswered'),
    question: z.string(),
    answer: answerSchema,
    outcome: evaluationSchema,
  }),
  z.strictObject({ type: z.literal('NoteMade'), text: z.string() }),
  z.strictObject({
    type: z.literal('WaitEnded'),
    how: z.enum(['in-time', 'early', 'again']),
    waitedMinutes: z.number().nonnegative(),
  }),
  /** A mentor opened the log to review it. */
  z.strictObject({
    type: z.literal('ReviewOpened'),
    mentor: z.string(),
    program: z.string(),
    rules: z.string(),
  }),
  z.strictObject({
    type: z.literal('CommentMade'),
    /** What it is about: a record of this log, or a check of the review; neither for the batch as a whole. */
    record: z.int().positive().optional(),
    check: z.string().optional(),
    text: z.string(),
  }),
  z.strictObject({ type: z.literal('CheckSeen'), check: z.string() }),
  z.strictObject({
    type: z.literal('ReviewSigned'),
    mentor: z.string(),
    verdict: z.enum(verdicts),
    well: z.string().describe('one thing that was done well'),
    change: z.string().describe('one thing to change'),
    found: z.array(z.string()).describe('the checks that fired when it was signed'),
  }),
  /** The maker has been shown the review and the comments before it. */
  z.strictObject({ type: z.literal('ReviewShown') }),
  z.strictObject({ type: z.literal('SessionPaused') }),
  z.strictObject({ type: z.literal('BatchGivenUp'), reason: z.string() }),
]);

export type Answer = z.infer<typeof answerSchema>;
export type TroubleOutcome = z.infer<typeof troubleOutcomeSchema>;
export type ReviewVerdict = (typeof verdicts)[number];
export type RequestKind = (typeof requestKinds)[number];
export type EventBody = z.infer<typeof eventSchema>;
/** Time comes in with the event: UTC, ISO 8601. */
export type TalkEvent = EventBody & { at: string };

const reviewTypes = ['ReviewOpened', 'CommentMade', 'CheckSeen', 'ReviewSigned', 'ReviewShown'] as const;
type OfReview = { type: (typeof reviewTypes)[number] };
export type ReviewEvent = Extract<EventBody, OfReview>;

/** What a mentor does in a log, and that the maker saw it; no part of the talk itself. */
export function isOfReview<Event extends { type: string }>(event: Event): event is Extract<Event, OfReview> {
  return reviewTypes.some((type) => type === event.type);
}
