import { cpSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { DuckDBConnection } from '@duckdb/node-api';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import type { TalkEvent } from '../../src/conversation/events.ts';
import { replay } from '../../src/conversation/replay.ts';
import { emptyState, type State } from '../../src/conversation/state.ts';
import { makeStep } from '../../src/conversation/step.ts';
import { noHash, recordVersion } from '../../src/journal/record-format.ts';
import { demoBefore, typeInto } from '../review/changed-log.ts';
import { demoFileOf, demoNames } from '../review/demo-logs.ts';
import { demoLog } from '../review/edited-log.ts';
import { book } from '../rulebook/cases.ts';
import { ToldTalk } from '../scenarios/straight-talk.ts';
import { answerOf, type Cell, connect, plain } from './page-sql.ts';

// A machine under load is slow, not wrong.
vi.setConfig({ testTimeout: 120_000, hookTimeout: 120_000 });

const folder = mkdtempSync(join(tmpdir(), 'batchside-back-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function write(name: string, events: readonly TalkEvent[]): void {
  const lines = events.map(({ at, ...event }, index) =>
    JSON.stringify({ v: recordVersion, seq: index + 1, at, prev: noHash, event }),
  );
  writeFileSync(join(folder, `${name}.ndjson`), `${lines.join('\n')}\n`);
}

/** The batch that a stop holds before anything is done. */
function heldAtTheRig(): ToldTalk {
  const talk = new ToldTalk(
    demoLog('dangerous-rig-stopped')
      .slice(0, 14)
      .map(({ event }) => event),
  );
  if (talk.state.held.length === 0) throw new Error('no stop holds there any more');
  return talk;
}

const talks: Record<string, () => ReturnType<typeof typeInto>> = {
  'an answer that was taken back, with nothing after it': () =>
    typeInto(demoBefore('clean-first-batch', 'titrant-3'), 'back'),
  'two taken back, and another way taken from there': () =>
    typeInto(demoBefore('clean-first-batch', 'methanol-left-again'), 'back', 'back', 'not sure'),
  'taken back again and again': () =>
    typeInto(
      demoBefore('clean-first-batch', 'titrant-3'),
      'back',
      '1.5 mL',
      'back',
      'back',
      '1.4 mL',
      '1.4 mL',
    ),
  'a step back that a stop bars': () => typeInto(heldAtTheRig(), 'back', 'not sure'),
  'a step back that a stop bars, and no more': () => typeInto(heldAtTheRig(), 'back', 'back'),
  'a change that leaves answers out': () =>
    typeInto(demoBefore('clean-first-batch', 'review-wanted'), 'change conv-test to layer'),
  'a figure that was lost by a change': () =>
    typeInto(demoBefore('clean-first-batch', 'review-wanted'), 'change fuel-litres-temperature to not sure'),
  'a figure that was lost, and one change more': () =>
    typeInto(
      demoBefore('clean-first-batch', 'review-wanted'),
      'change titrant-2 to not sure',
      'change rxn-temp to 53 C',
    ),
};

/** The talk's own answers and figures at the end of a log, by name. */
const ends = new Map<string, State>();

/** The last answer to each question that is not taken back, as words, numbers or neither. */
function answersOf({ past }: State): [string, Cell][] {
  const last = new Map(past.map(({ question, answer }) => [question, answer]));
  return [...last].map(([question, answer]) => {
    const word = 'choice' in answer ? answer.choice : 'text' in answer ? answer.text : undefined;
    return [question, plain(word ?? ('value' in answer ? answer.value : undefined))];
  });
}

const sorted = (rows: readonly Cell[][]) => rows.map(([name, value]) => `${name}: ${value}`).sort();

describe('what the SQL counts is what the talk knew at the end', () => {
  let connection: DuckDBConnection;
  beforeAll(async () => {
    for (const name of demoNames) {
      cpSync(demoFileOf(name), join(folder, `${name}.ndjson`));
      ends.set(
        name,
        replay(
          makeStep(book),
          demoLog(name).map(({ event }) => event),
        ).state,
      );
    }
    for (const [name, told] of Object.entries(talks)) {
      const talk = await told();
      const wentBack = ({ type }: TalkEvent) => type === 'AnswerWithdrawn' || type === 'AnswerChanged';
      if (!talk.events.some(wentBack)) throw new Error(`nothing was taken back or changed in "${name}"`);
      write(name, talk.events);
      ends.set(name, talk.state);
    }
    connection = await connect(folder);
  });

  it('a figure was lost, and answers were left out, in some of these', () => {
    const figures = (name: string) => Object.keys(ends.get(name)?.figures ?? {});
    expect(figures('clean-first-batch')).toContain('titrant-mean');
    expect(figures('a figure that was lost, and one change more')).not.toContain('titrant-mean');
    const { past } = ends.get('a change that leaves answers out') ?? emptyState;
    expect(past.map(({ question }) => question)).not.toContain('wash-kind');
  });

  it.each([...demoNames, ...Object.keys(talks)])('%s', async (name) => {
    const state = ends.get(name);
    if (!state) throw new Error('no such log');
    const where = `WHERE journal LIKE '%/${name}.ndjson'`;
    const answers = await answerOf(
      connection,
      `SELECT question, coalesce(word, CAST(number AS VARCHAR)) FROM answers ${where}`,
    );
    const numbers = await answerOf(
      connection,
      `SELECT question, number FROM answers ${where} AND number IS NOT NULL`,
    );
    const words = answers.map(([question, word]) => [
      question ?? '',
      numbers.find(([one]) => one === question)?.[1] ?? word ?? null,
    ]);
    expect(sorted(words)).toEqual(sorted(answersOf(state)));
    const figures = await answerOf(connection, `SELECT fact, value FROM figures ${where}`);
    const known = Object.entries(state.figures).map(([fact, { value }]) => [fact, plain(value)]);
    expect(sorted(figures)).toEqual(sorted(known));
  });
});
