import { readFileSync } from 'node:fs';
import { parse } from 'yaml';
import * as z from 'zod';
import { understood } from '../../src/commands/understand.ts';
import type { Answer } from '../../src/conversation/events.ts';
import { emptyState, type State } from '../../src/conversation/state.ts';
import { readAnswer } from '../../src/conversation/understanding/read-answer.ts';
import { understand } from '../../src/conversation/understanding/understand.ts';
import { type Book, questionOf, stageOf } from '../../src/rulebook/book.ts';

const value = z.union([z.string(), z.number(), z.boolean(), z.array(z.string())]);
const tableSchema = z.array(
  z.strictObject({
    about: z.string(),
    /** Answers given earlier in the batch, as typed. */
    earlier: z.record(z.string(), z.string()).optional(),
    rows: z.record(z.string(), z.record(z.string(), z.union([value, z.record(z.string(), value)]))),
  }),
);

type Value = z.infer<typeof value>;

export interface Row {
  about: string;
  question: string;
  text: string;
  wanted: Value | Record<string, Value>;
  earlier: Record<string, string>;
}

const file = new URL('understood.yaml', import.meta.url).pathname;

export const rows: Row[] = tableSchema
  .parse(parse(readFileSync(file, 'utf8')))
  .flatMap(({ about, earlier = {}, rows: of }) =>
    Object.entries(of).flatMap(([question, lines]) =>
      Object.entries(lines).map(([text, wanted]) => ({ about, question, text, wanted, earlier })),
    ),
  );

function given(book: Book, question: string, text: string): State['past'][number] {
  const reading = readAnswer(questionOf(book, question), text, { habits: {}, gallon: 'US' });
  if (!('sure' in reading)) throw new Error(`${question}: "${text}" is not understood`);
  return { before: emptyState, question, answer: reading.sure, text, at: '2026-03-02T08:00:00Z' };
}

/** A talk that has come to this question: what its stage asks before is passed, later questions are open. */
export function talkAt(book: Book, question: string, earlier: Record<string, string> = {}): State {
  // What clears a stop is asked in any stage.
  const stage = book.stages.find((one) => one.asks.includes(question)) ?? book.stages[0];
  if (!stage || !book.questions[question]) throw new Error(`there is no question ${question}`);
  const { asks } = stageOf(book, stage.stage);
  const skipped: Answer = { kind: 'skipped' };
  const passed = asks
    .slice(0, Math.max(0, asks.indexOf(question)))
    .map((id) => [id, { answer: skipped, status: 'skipped', at: '2026-03-02T08:00:00Z', turn: 1 }] as const);
  return {
    ...emptyState,
    stage: stage.stage,
    asking: question,
    session: 1,
    answers: Object.fromEntries(passed),
    past: Object.entries(earlier).map(([id, text]) => given(book, id, text)),
  };
}

function same(one: unknown, other: unknown): boolean {
  if (typeof one === 'number' && typeof other === 'number') {
    return Math.abs(one - other) <= 0.002 * Math.abs(other) + 0.006;
  }
  return JSON.stringify(one) === JSON.stringify(other);
}

function sameMap(one: Record<string, unknown>, other: Record<string, unknown>): boolean {
  const keys = new Set([...Object.keys(one), ...Object.keys(other)]);
  return [...keys].every((key) => same(one[key], other[key]));
}

/** What yes would mean to what is asked back. */
function meaning(book: Book, state: State, row: Row): unknown {
  const event = understand(book, state, row.text);
  if (event?.type !== 'AnswerDoubted') return undefined;
  const yes = understood(
    book,
    { ...state, doubt: { ...event, typed: event.typed, either: undefined } },
    row.question,
    'yes',
  );
  return yes.answers[row.question];
}

export interface Outcome {
  row: Row;
  right: boolean;
  /** A value was taken that is not what was meant, or where nothing should be taken. */
  wrongTaken: boolean;
  got: string;
}

/** Reads a line as the talk would and holds it against what must be understood. */
export function check(book: Book, row: Row): Outcome {
  const state = talkAt(book, row.question, row.earlier);
  const got = understood(book, state, row.question, row.text);
  const { wanted } = row;
  const taken = !got.asksBack && Object.keys(got.answers).length > 0;
  const outcome = (right: boolean): Outcome => ({
    row,
    right,
    wrongTaken: !right && taken,
    got: JSON.stringify(got),
  });
  if (typeof wanted === 'object' && !Array.isArray(wanted)) {
    return outcome(got.asksBack !== undefined && sameMap(got.answers, wanted));
  }
  if (wanted === 'not sure' || wanted === 'skip') return outcome(got.unsure === true);
  if (wanted === '?') return outcome(got.asksBack !== undefined && Object.keys(got.answers).length === 0);
  if (typeof wanted === 'string' && wanted.startsWith('? ')) {
    const meant = meaning(book, state, row);
    const right = got.asksBack !== undefined && same(meant, parse(wanted.slice(2)) as unknown);
    return { ...outcome(right), got: `${JSON.stringify(got)} yes: ${JSON.stringify(meant)}` };
  }
  if (typeof wanted === 'string' && wanted.startsWith('/')) return outcome(got.request === wanted.slice(1));
  return outcome(taken && sameMap(got.answers, { [row.question]: wanted }));
}
