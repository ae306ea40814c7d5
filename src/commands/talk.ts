import { existsSync } from 'node:fs';
import { join } from 'node:path';
import type { Turn } from '../conversation/effects.ts';
import { type EventBody, isOfReview } from '../conversation/events.ts';
import { JournalWriter } from '../journal/append.ts';
import { defaultFolder, journalEnding, journalsIn, makeFolder } from '../journal/folder.ts';
import { JournalError } from '../journal/journal-error.ts';
import type { Lock } from '../journal/lock.ts';
import type { Book } from '../rulebook/book.ts';
import { type Clock, FixedClock, realClock } from './clock.ts';
import { openFace, plainFace } from './faces.ts';
import { openBook } from './open-book.ts';
import { program } from './program.ts';
import { type Listener, Session } from './session.ts';
import { showReviews } from './shown-reviews.ts';
import { UsageError } from './usage-error.ts';

export interface TalkOptions {
  plain: boolean;
  fresh: boolean;
  answers?: string;
  logs?: string;
  rules?: string;
  batch?: string;
  start?: string;
  /** Opened to find out what went wrong. */
  trouble?: boolean;
}

export interface Opened {
  session: Session;
  writer: JournalWriter;
  /** Turns of earlier sessions, for looking back. */
  earlier: Turn[];
  lock: Lock | undefined;
}

/** The next free name of the day: 2026-03-01-1, 2026-03-01-2 ... */
function newBatchName(folder: string, day: string): string {
  for (let number = 1; ; number += 1) {
    const name = `${day}-${number}`;
    if (!existsSync(join(folder, name + journalEnding))) return name;
  }
}

async function openNew(
  book: Book,
  folder: string,
  clock: Clock,
  listener: Listener,
  trouble: boolean,
): Promise<Opened> {
  const day = clock.now().slice(0, 10);
  const batch = newBatchName(folder, day);
  const writer = JournalWriter.create(join(folder, batch + journalEnding));
  const session = new Session(book, writer, clock, listener);
  const purpose = trouble ? { purpose: 'trouble' as const } : {};
  await session.dispatch({ type: 'BatchOpened', batch, program, rules: book.hash, ...purpose });
  const { lockJournal } = await import('../journal/lock.ts');
  return { session, writer, earlier: [], lock: await lockJournal(writer.file) };
}

function minutesSince(at: string, clock: Clock): number {
  return Math.max(0, (Date.parse(clock.now()) - Date.parse(at)) / 60_000);
}

async function openAgain(book: Book, file: string, clock: Clock, listener: Listener): Promise<Opened> {
  const [{ lockJournal }, { eventsOf, readJournal }] = await Promise.all([
    import('../journal/lock.ts'),
    import('../journal/read.ts'),
  ]);
  const lock = await lockJournal(file);
  if (!lock)
    throw new UsageError(
      `${file} is open in another window. Close it there, or start another batch with --new.`,
    );
  const journal = readJournal(file);
  const writer = JournalWriter.resume(journal);
  const session = new Session(book, writer, clock, listener);
  const earlier = readable(file, () => session.restore(eventsOf(journal)));
  if (session.state.ended) {
    lock.release();
    writer.close();
    throw new UsageError(
      `batch ${session.state.batch} has ended. replay and report show it; --new begins another.`,
    );
  }
  // A mentor's words, or that they were shown, do not mean that the maker was at the tank.
  const last = journal.records.findLast(({ event }) => !isOfReview(event))?.at;
  const opened: EventBody = {
    type: 'SessionOpened',
    program,
    rules: book.hash,
    awayMinutes: last ? minutesSince(last, clock) : 0,
  };
  await session.dispatch(opened);
  if (session.waitIsOver()) await session.endWait();
  else session.setTimer();
  return { session, writer, earlier, lock };
}

/** A journal that cannot be read, or that these rules cannot follow, must not keep anybody from another batch. */
function readable<T>(file: string, read: () => T): T {
  try {
    return read();
  } catch (error) {
    const says = error instanceof JournalError ? error.message : `${file}: ${(error as Error).message}`;
    throw new UsageError(`${says}\nThe file is left as it is. --new begins another batch.`);
  }
}

/** The newest journal whose batch has not ended, by its last records. A trouble alone is no batch to go on with. */
async function unfinished(book: Book, folder: string, trouble: boolean): Promise<string | undefined> {
  const files = journalsIn(folder).reverse();
  if (files.length === 0) return undefined;
  const [{ eventsOf, readJournal }, { replay }, { makeStep }] = await Promise.all([
    import('../journal/read.ts'),
    import('../conversation/replay.ts'),
    import('../conversation/step.ts'),
  ]);
  for (const file of files) {
    const { state } = readable(file, () => replay(makeStep(book), eventsOf(readJournal(file))));
    const fits = trouble || !state.trouble?.alone;
    if (!state.ended && state.batch !== '' && fits) return file;
  }
  return undefined;
}

async function open(book: Book, options: TalkOptions, clock: Clock, listener: Listener): Promise<Opened> {
  const folder = options.logs ?? defaultFolder(process.env, process.platform);
  const named = options.batch && join(folder, options.batch + journalEnding);
  if (named && !existsSync(named)) throw new UsageError(`there is no batch ${options.batch} in ${folder}`);
  makeFolder(folder);
  if (!options.answers) await showReviews(book, folder, clock, (turn) => listener.turn(turn));
  const trouble = options.trouble === true;
  const file = named ?? (options.fresh ? undefined : await unfinished(book, folder, trouble));
  if (!file) return openNew(book, folder, clock, listener, trouble);
  const opened = await openAgain(book, file, clock, listener);
  if (trouble && !opened.session.state.trouble)
    await opened.session.dispatch({ type: 'TroubleReported', text: 'trouble' });
  return opened;
}

async function talkByAnswers(book: Book, options: TalkOptions, file: string): Promise<number> {
  const [{ readAnswersFile }, { runAnswers }] = await Promise.all([
    import('./answers-file.ts'),
    import('./run-answers.ts'),
  ]);
  const answers = readAnswersFile(file, book);
  const start = options.start ?? '2026-03-02T08:00:00Z';
  if (Number.isNaN(Date.parse(start))) {
    throw new UsageError(`--start ${start} is no time; write it like 2026-03-02T08:00:00Z`);
  }
  const clock = new FixedClock(start);
  const { session, writer, lock } = await open(book, options, clock, plainFace());
  const missing = await runAnswers(book, session, answers, clock);
  if (missing) {
    process.stderr.write(
      `${file} has no answer left for "${missing}". The batch waits there: ${writer.file}\n`,
    );
    await session.dispatch({ type: 'SessionPaused' });
  }
  lock?.release();
  writer.close();
  return missing ? 3 : 0;
}

async function talkWithMaker(book: Book, options: TalkOptions): Promise<number> {
  const face = await openFace(options.plain);
  const opened = await open(book, options, realClock, face);
  await face.run(opened.session, opened.earlier);
  return close(opened);
}

async function close({ session, writer, lock }: Opened): Promise<number> {
  session.stopTimer();
  if (!session.state.ended && !session.state.paused) await session.dispatch({ type: 'SessionPaused' });
  lock?.release();
  writer.close();
  process.stdout.write(`\nThe log: ${writer.file}\n`);
  return 0;
}

/** Opens the newest unfinished batch, or a new one, on the face that fits. */
export async function talk(options: TalkOptions): Promise<number> {
  const book = await openBook(options.rules);
  return options.answers ? talkByAnswers(book, options, options.answers) : talkWithMaker(book, options);
}
