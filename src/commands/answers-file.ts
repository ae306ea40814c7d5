import { readFileSync } from 'node:fs';
import { parse } from 'yaml';
import * as z from 'zod';
import { minutesIn } from '../conversation/time.ts';
import type { Book } from '../rulebook/book.ts';
import { UsageError } from './usage-error.ts';

const word = z.union([z.string(), z.number(), z.boolean()]);
const timed = z.strictObject({ after: z.string().regex(/^\d+(\.\d+)? (min|h|day)$/), say: word });
const one = z.union([word, timed]);
const schema = z.record(z.string(), z.union([one, z.array(one)]));

export interface PreparedAnswer {
  say: string;
  /** Minutes that pass before it is given. */
  afterMinutes: number;
}

function prepare(value: z.infer<typeof one>): PreparedAnswer {
  if (typeof value === 'object') return { ...prepare(value.say), afterMinutes: minutesIn(value.after) };
  const say = typeof value === 'boolean' ? (value ? 'yes' : 'no') : String(value);
  return { say, afterMinutes: 0 };
}

/** Prepared answers by question id; a list is used up in order, one item each time the question is asked. */
export class PreparedAnswers {
  private readonly lists: Map<string, PreparedAnswer[]>;
  private readonly single: Set<string>;

  constructor(answers: z.infer<typeof schema>) {
    const listed = Object.entries(answers).map(
      ([id, value]) => [id, (Array.isArray(value) ? value : [value]).map(prepare)] as const,
    );
    this.lists = new Map(listed);
    this.single = new Set(Object.keys(answers).filter((id) => !Array.isArray(answers[id])));
  }

  /** The next answer to a question; a single answer is given every time. */
  take(question: string): PreparedAnswer | undefined {
    const list = this.lists.get(question);
    return this.single.has(question) ? list?.[0] : list?.shift();
  }
}

/** @throws UsageError  when the file cannot be read or holds an id that is no question */
export function readAnswersFile(file: string, book: Book): PreparedAnswers {
  let parsed: unknown;
  try {
    parsed = parse(readFileSync(file, 'utf8'));
  } catch (error) {
    throw new UsageError(`${file} cannot be read: ${(error as Error).message.split('\n')[0]}`);
  }
  const checked = schema.safeParse(parsed ?? {});
  if (!checked.success) {
    throw new UsageError(`${file}: each line is a question id with an answer, or a list of answers`);
  }
  const strangers = Object.keys(checked.data).filter((id) => !(id in book.questions));
  if (strangers.length > 0) throw new UsageError(`${file}: there is no question ${strangers.join(', ')}`);
  return new PreparedAnswers(checked.data);
}
