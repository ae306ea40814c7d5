import { occasionOf } from '../../src/conversation/enter-stage.ts';
import type { Answer, TalkEvent } from '../../src/conversation/events.ts';
import { statusOf } from '../../src/conversation/facts.ts';
import { withMinutes } from '../../src/journal/answer-minutes.ts';
import { type Numbered, readJournal } from '../../src/journal/read.ts';
import { type AnswerTold, type Story, tellStory } from '../../src/review/story.ts';
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

/** Further answers and remarks, each right after the answer it names. */
function insert(book: Book, log: Numbered[], { add = [], note = [] }: Edits): void {
  const anchor = (after: string) => log[find(log, after)] as Numbered;
  const coming = [
    ...add.map(({ question, answer: short, after, minutes = 0 }) => {
      const given = { question, answer: answerFrom(book, question, short), text: String(short) };
      const place = anchor(after);
      const at = later(place.event.at, minutes);
      return { after: place, event: { type: 'AnswerGiven', ...given, at } as TalkEvent };
    }),
    ...note.map(({ text, after }) => {
      const place = anchor(after);
      return { after: place, event: { type: 'NoteMade', text, at: place.event.at } as TalkEvent };
    }),
  ];
  // Backwards, so that what comes in after the same answer stays in the order in which it is written.
  for (const { after, event } of coming.reverse()) log.splice(log.indexOf(after) + 1, 0, { seq: 0, event });
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

/** The index of the record in which the rules speak to an answer. */
function rulesAfter(log: readonly Numbered[], answer: number): number {
  return log.findIndex(({ event }, index) => index > answer && event.type === 'RulesEvaluated');
}

const told = new Map<string, Story>();

/** A story of its own of a demo log: the lists and what is in them may be changed. */
function demoStory(book: Book, name: string): Story {
  const known = told.get(name) ?? tellStory(book, demoLog(name));
  told.set(name, known);
  const lists = Object.entries(known).map(([key, value]) => [
    key,
    Array.isArray(value) ? value.map((one) => ({ ...one })) : value,
  ]);
  return Object.fromEntries(lists) as Story;
}

/** Another answer in a told story: the recorded rules go on from it as they went on from the one that was given. */
function setTold(book: Book, story: Story, { set = {} }: Edits): void {
  const answers = { ...story.state.answers };
  for (const [name, short] of Object.entries(set)) {
    const [question = '', count] = name.split('#');
    const given = story.answers.filter((one) => one.question === question);
    const told = count === undefined ? given.at(-1) : given[Number(count) - 1];
    if (!told) throw new Error(`the log has no answer "${name}"`);
    Object.assign(told, { answer: answerFrom(book, question, short), text: String(short) });
    const was = answers[question];
    if (was && told.stands)
      answers[question] = { ...was, answer: told.answer, status: statusOf(told.answer) };
  }
  story.state = { ...story.state, answers };
}

function isFolded({ add, note, shift, misdate, upTo }: Edits): boolean {
  return [add, note, shift, misdate, upTo].some((edit) => edit !== undefined);
}

function foldedStory(book: Book, edits: Edits): Story {
  const log = [...demoLog(edits.log ?? 'clean-first-batch')];
  setAnswers(book, log, edits);
  moveTimes(log, edits);
  insert(book, log, edits);
  // Cut last: an edit may name an answer after the cut.
  const end = edits.upTo === undefined ? log.length : rulesAfter(log, find(log, edits.upTo)) + 1;
  return tellStory(book, numberedAnew(log.slice(0, end)));
}

/** The story of a demo batch after these edits. A log is folded anew only where the edits need it: that is slow. */
export function editedStory(book: Book, edits: Edits = {}): Story {
  let story: Story;
  if (isFolded(edits)) story = foldedStory(book, edits);
  else {
    story = demoStory(book, edits.log ?? 'clean-first-batch');
    setTold(book, story, edits);
  }
  dropAnswers(story, edits.drop ?? []);
  figuresAnew(book, story, edits);
  return story;
}
