import { mkdtempSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { readAnswersFile } from '../../src/commands/answers-file.ts';
import { FixedClock } from '../../src/commands/clock.ts';
import { runAnswers } from '../../src/commands/run-answers.ts';
import { Session } from '../../src/commands/session.ts';
import type { Turn } from '../../src/conversation/effects.ts';
import type { State } from '../../src/conversation/state.ts';
import { JournalWriter } from '../../src/journal/append.ts';
import { eventsOf, readJournal } from '../../src/journal/read.ts';
import { turnLines } from '../../src/plain/lines.ts';
import type { Book } from '../../src/rulebook/book.ts';

export interface SessionPlan {
  start: string;
  answers: string;
}

export interface Recorded {
  file: string;
  journal: string;
  /** The talk as lines of text. */
  talk: string;
  turns: Turn[];
  state: State;
  /** The question that had no answer left, by session. */
  missing: (string | undefined)[];
}

// Demo journals must not change with the program's version or every reworded rule.
const program = 'batchside demo';
const rules = 'demo';

/** Talks a batch through from prepared answers, session by session, as the program itself does. */
export async function recordBatch(
  book: Book,
  name: string,
  plans: readonly SessionPlan[],
): Promise<Recorded> {
  const file = join(mkdtempSync(join(tmpdir(), 'batch-')), `${name}.ndjson`);
  const turns: Turn[] = [];
  const missing: (string | undefined)[] = [];
  let state: State | undefined;
  for (const [index, plan] of plans.entries()) {
    const clock = new FixedClock(plan.start);
    const journal = index === 0 ? undefined : readJournal(file);
    const writer = journal ? JournalWriter.resume(journal) : JournalWriter.create(file);
    const listener = { turn: (turn: Turn) => turns.push(turn), changed: () => undefined };
    const session = new Session(book, writer, clock, listener);
    if (journal) {
      session.restore(eventsOf(journal));
      const away = Date.parse(plan.start) - Date.parse(journal.records.at(-1)?.at ?? plan.start);
      await session.dispatch({
        type: 'SessionOpened',
        program,
        rules,
        awayMinutes: Math.max(0, away / 60_000),
      });
      if (session.waitIsOver()) await session.endWait();
    } else await session.dispatch({ type: 'BatchOpened', batch: name, program, rules });
    const left = await runAnswers(book, session, readAnswersFile(plan.answers, book), clock);
    missing.push(left);
    if (!session.state.ended && !session.state.paused) await session.dispatch({ type: 'SessionPaused' });
    writer.close();
    state = session.state;
  }
  if (!state) throw new Error(`${name} has no session`);
  const talk = `${turns.flatMap(turnLines).join('\n').trimStart()}\n`;
  return { file, journal: readFileSync(file, 'utf8'), talk, turns, state, missing };
}
