import { withMinutes } from '../../src/commands/session.ts';
import { occasionOf } from '../../src/conversation/enter-stage.ts';
import type { Answer, TalkEvent } from '../../src/conversation/events.ts';
import { statusOf } from '../../src/conversation/facts.ts';
import { readJournal } from '../../src/journal/read.ts';
import { type AnswerTold, type Numbered, type Story, tellStory } from '../../src/review/story.ts';
import { type Book, questionOf } from '../../src/rulebook/book.ts';
import { compute } from '../../src/rulebook/compute.ts';

/** An answer in short: a choice, numbers in the question's unit, yes or no as true or false, `not-sure`, `skipped`. */
export type Short = string | number | boolean | string[];

/**
 * What to do to a recorded batch. A question is named by its id, which means its last answer, or as `id#2` for the
 * second answer that it was given.
 */
export interface Edits {
  /** The demo log to begin with; the clean one if not said. */
  log?: string;
  /** The answer is another one. */
  set?: Record<string, Short>;
  /** It was never asked; without `#` none of its answers was given. */
  drop?: string[];
  /** It was also asked, right after the answer to `after`. */
  add?: { question: string; answer: Short; after: string; minutes?: number }[];
  /** This answer and everything after it came so many minutes later (or earlier). */
  shift?: Record<string, number>;
  /** Only this answer carries another time, so many minutes later or earlier. */
  misdate?: Record<string, number>;
  /** A remark made right after the answer to `after`. */
  note?: { text: string; after: string }[];
  /** The log ends right after the rules have spoken to this answer. */
  upTo?: string;
  /** Figures that the batch then had, in their units, whatever its answers say. */
  figures?: Record<string, number>;
}

const folder = new URL('../../transcripts-demo/', import.meta.url).pathname;
const read = new Map<string, readonly Numbered[]>();

export function demoLog(name: string): readonly Numbered[] {
  const known = read.get(name);
  if (known) return known;
  const records = readJournal(`${folder}${name}.ndjson`).records;
  const log = records.map(({ seq, at, event }) => ({ seq, event: { ...event, at } as TalkEvent }));
  read.set(name, log);
  return log;
}

export function answerFrom(book: Book, question: string, short: Short): Answer {
  const { answer } = questionOf(book, question);
  if (short === 'not-sure' || short === 'skipped') return { kind: short };
  if ('choice' in answer) {
    if (!Object.hasOwn(answer.choice, String(short))) throw new Error(`${question} has no choice "${short}"`);
    return { kind: 'choice', choice: String(short) };
  }
  if ('many' in answer && Array.isArray(short)) return { kind: 'many', choices: short };
  if ('yes-no' in answer) return { kind: 'yes-no', yes: short === true };
  if ('clock' in answer) return { kind: 'clock', time: String(short) };
  if ('text' in answer) return { kind: 'text', text: String(short) };
  const [unit, plusMinus] =
    'quantity' in answer
      ? ([answer.quantity.unit, answer.quantity.reads] as const)
      : (['min', 'duration' in answer ? answer.duration.reads : 0] as const);
  if (typeof short !== 'number') throw new Error(`${question} wants a number, not "${short}"`);
  return { kind: 'quantity', value: short, unit, plusMinus };
}

const later = (at: string, minutes: number): string =>
  new Date(Date.parse(at) + minutes * 60_000).toISOString();

/** The index of the answer that a name like `drain-look#2` means. */
function find(log: readonly Numbered[], name: string): number {
  const [question, count] = name.split('#');
  const given = log.flatMap(({ event }, index) =>
    'question' in event && event.type === 'AnswerGiven' && event.question === question ? [index] : [],
  );
  const index = count === undefined ? given.at(-1) : given[Number(count) - 1];
  if (index === undefined) throw new Error(`the log has no answer "${name}"`);
  return index;
}

function setAnswers(book: Book, log: Numbered[], { set = {} }: Edits): void {
  for (const [name, short] of Object.entries(set)) {
    const index = find(log, name);
    const [question = ''] = name.split('#');
    const { seq, event } = log[index] as Numbered;
    const answer = answerFrom(book, question, short);
    log[index] = { seq, event: { ...event, answer, text: String(short) } as TalkEvent };
  }
}

function moveTimes(log: Numbered[], { shift = {}, misdate = {} }: Edits): void {
  const move = (index: number, minutes: number) => {
    const { seq, event } = log[index] as Numbered;
    log[index] = { seq, event: { ...event, at: later(event.at, minutes) } };
  };
  for (const [name, minutes] of Object.entries(shift))
    for (let index = find(log, name); index < log.length; index += 1) move(index, minutes);
  for (const [name, minutes] of Object.entries(misdate)) move(find(log, name), minutes);
}

/** What comes in is told after the rules have answered to what came before it. */
function insert(book: Book, log: Numbered[], { add = [], note = [] }: Edits): void {
  const put = (after: string, event: (at: string) => TalkEvent) => {
    const index = find(log, after);
    const { seq, event: before } = log[index] as Numbered;
    log.splice(index + 1, 0, { seq: seq + 0.1, event: event(before.at) });
  };
  for (const { question, answer: short, after, minutes = 0 } of add) {
    const answer = answerFrom(book, question, short);
    const text = String(short);
    put(after, (at) => ({ type: 'AnswerGiven', question, answer, text, at: later(at, minutes) }));
  }
  for (const { text, after } of note) put(after, (at) => ({ type: 'NoteMade', text, at }));
}

function numberedAnew(log: readonly Numbered[]): Numbered[] {
  return log.map(({ event }, index) => ({ seq: index + 1, event }));
}

/**
 * Takes answers out of a story: the talk is folded with them, because the recorded rules went on from them, and
 * they are then as if they had never been given.
 */
function dropAnswers(story: Story, names: readonly string[]): void {
  const gone = new Set<AnswerTold>();
  for (const name of names) {
    const [question, count] = name.split('#');
    const given = story.answers.filter((told) => told.question === question);
    const which = count === undefined ? given : given.slice(Number(count) - 1, Number(count));
    if (which.length === 0) throw new Error(`the log has no answer "${name}"`);
    for (const told of which) gone.add(told);
  }
  const answers = { ...story.state.answers };
  for (const { question, stands } of gone) {
    if (!stands) continue;
    const before = story.answers.findLast((told) => told.question === question && !gone.has(told));
    delete answers[question];
    if (!before) continue;
    before.stands = true;
    answers[question] = { answer: before.answer, status: statusOf(before.answer), at: before.at, turn: 0 };
  }
  story.answers = story.answers.filter((told) => !gone.has(told));
  story.turns = story.turns.filter(
    (turn) => turn.kind !== 'answer' || ![...gone].some(({ record }) => record === turn.record),
  );
  story.state = { ...story.state, answers };
}

/** Figures follow the edited answers; the rules' own words in between stay as recorded. */
function figuresAnew(book: Book, story: Story, edits: Edits): void {
  const { figures } = compute(book, withMinutes(occasionOf(story.state)).facts);
  for (const [fact, value] of Object.entries(edits.figures ?? {})) {
    const was = figures[fact] ?? story.figures.findLast((told) => told.fact === fact)?.figure;
    if (!was) throw new Error(`the batch has no figure "${fact}"`);
    figures[fact] = { ...was, value };
  }
  for (const [fact, figure] of Object.entries(figures)) {
    const told = story.figures.findLast((one) => one.fact === fact);
    if (told && told.figure.value !== figure.value) told.figure = figure;
  }
  story.figures = story.figures.filter(({ fact }) => fact in figures || !(fact in story.state.figures));
  story.state = { ...story.state, figures };
}

/** The story of a demo batch after these edits. */
export function editedStory(book: Book, edits: Edits = {}): Story {
  const log = [...demoLog(edits.log ?? 'clean-first-batch')];
  // Later stages' names must still be found after the log was cut, so that cutting comes last.
  setAnswers(book, log, edits);
  moveTimes(log, edits);
  insert(book, log, edits);
  const end = edits.upTo === undefined ? log.length : find(log, edits.upTo) + 2;
  const story = tellStory(book, numberedAnew(log.slice(0, end)));
  dropAnswers(story, edits.drop ?? []);
  figuresAnew(book, story, edits);
  return story;
}
