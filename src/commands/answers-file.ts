import { readFileSync } from 'node:fs';
import { parse } from 'yaml';
import * as z from 'zod';
import { minutesIn } from '../conversation/time.ts';
import type { GallonKind } from '../conversation/understanding/read-context.ts';
import { dimensionOf } from '../quantity/units.ts';
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
  /** Which gallon the file means. Nobody can be asked, so without its `gallon-kind` it is the US gallon. */
  readonly gallon: GallonKind;

  constructor(answers: z.infer<typeof schema>, gallon: GallonKind = 'US') {
    this.gallon = gallon;
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

/** Beside the questions: which gallon the file means. */
const gallonKey = 'gallon-kind';

/** A bare number in a file is in the unit of its question; a person would be asked. */
function withUnits(answers: z.infer<typeof schema>, book: Book): z.infer<typeof schema> {
  const inUnit = (id: string, value: z.infer<typeof one>): z.infer<typeof one> => {
    if (typeof value === 'object') return { ...value, say: inUnit(id, value.say) as z.infer<typeof word> };
    const answer = book.questions[id]?.answer;
    const measured = answer && 'quantity' in answer && dimensionOf(answer.quantity.unit) !== 'count';
    if (typeof value !== 'number' || !measured || answer.quantity.unit === 'money') return value;
    return `${value} ${answer.quantity.unit}`;
  };
  const entries = Object.entries(answers).map(
    ([id, value]) =>
      [id, Array.isArray(value) ? value.map((item) => inUnit(id, item)) : inUnit(id, value)] as const,
  );
  return Object.fromEntries(entries);
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
  const { [gallonKey]: gallon, ...answers } = checked.data;
  if (gallon !== undefined && gallon !== 'US' && gallon !== 'imperial') {
    throw new UsageError(`${file}: ${gallonKey} is US or imperial`);
  }
  const strangers = Object.keys(answers).filter((id) => !(id in book.questions));
  if (strangers.length > 0) throw new UsageError(`${file}: there is no question ${strangers.join(', ')}`);
  return new PreparedAnswers(withUnits(answers, book), gallon);
}
