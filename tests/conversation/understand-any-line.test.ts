import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { EventBody } from '../../src/conversation/events.ts';
import { factTable } from '../../src/conversation/facts.ts';
import type { State } from '../../src/conversation/state.ts';
import { makeStep } from '../../src/conversation/step.ts';
import { understand } from '../../src/conversation/understanding/understand.ts';
import { supposing } from '../../src/conversation/what-if.ts';
import { comparable } from '../../src/rulebook/comparable.ts';
import type { Hazard } from '../../src/rulebook/rule-schema.ts';
import { judge } from '../../src/rulebook/three-valued.ts';
import { book } from '../rulebook/cases.ts';
import { rows, talkAt } from './understood.ts';

const questions = Object.keys(book.questions);
const words = [...new Set(rows.flatMap((row) => row.text.split(/\s+/)))];
const line = fc.oneof(
  fc.string({ maxLength: 60 }),
  fc.string({ unit: 'grapheme', maxLength: 60 }),
  fc.array(fc.constantFrom(...words), { maxLength: 12 }).map((list) => list.join(' ')),
);
const step = makeStep(book);

/** Everything that rules may look at. */
function facts(state: ReturnType<typeof talkAt>): string {
  return JSON.stringify([state.answers, state.figures]);
}

describe('whatever is typed at any question', () => {
  it('gives an answer, a question or nothing at all, and changes no fact without an answer', () => {
    fc.assert(
      fc.property(fc.constantFrom(...questions), line, (question, text) => {
        const state = talkAt(book, question);
        const event = understand(book, state, text);
        expect(event === undefined).toBe(text.trim() === '');
        if (!event) return;
        const after = step(state, { ...event, at: '2026-03-02T09:00:00Z' }).state;
        if (event.type === 'TroubleReported') {
          expect(JSON.stringify(after.answers)).toBe(JSON.stringify({ ...state.answers, alarm: undefined }));
        } else if (event.type === 'AnswerGiven') expect(event.question).toBe(question);
        else expect(facts(after)).toBe(facts(state));
      }),
      { numRuns: 3000 },
    );
  });

  it.each([
    ['letters', 'a'],
    ['spaces within', 'what is  '],
    ['numbers', '54 '],
    ['commas', '1,'],
    ['clauses', '54 C and '],
    ['a letter with many marks', 'e\u0301\u0301'],
    ['question marks', '?'],
  ])('takes 100,000 characters of %s in its stride', (_name, piece) => {
    const text = `x${piece.repeat(Math.ceil(100_000 / piece.length))}x`;
    for (const question of ['drain-look', 'oil-temperature', 'oil-id', 'water-test-time', 'dispense-ready']) {
      const begun = performance.now();
      const event = understand(book, talkAt(book, question), text);
      expect(event?.type).toBe('AnswerNotUnderstood');
      expect(JSON.stringify(event).length).toBeLessThan(1000);
      expect(performance.now() - begun).toBeLessThan(1000);
    }
  });

  it.each(['a ', '54 ', 'what is ', '1, ', '54 C and ', 'water ', '1/2 '])(
    'is quick with the longest line that it reads, made of %j',
    (piece) => {
      const text = piece.repeat(3000).slice(0, 1999);
      for (const question of ['drain-look', 'oil-temperature', 'oil-id', 'dispense-ready']) {
        const begun = performance.now();
        understand(book, talkAt(book, question), text);
        expect(performance.now() - begun).toBeLessThan(1000);
      }
    },
  );
});

/** Whether a line, taken at once, leaves a stop cleared or still to be cleared by further answers. */
function mayClear(hazard: Hazard, state: State, event: EventBody | undefined): boolean {
  if (event?.type !== 'AnswerGiven' || event.answer.kind === 'not-sure' || event.answer.kind === 'skipped')
    return false;
  const facts = factTable(supposing(state, event.question, event.answer, ''));
  return judge(hazard.clear['safe-when'], comparable(book, facts, {})) !== 'false';
}

describe('a stop of DANGER', () => {
  const dangers = book.hazards.filter((hazard) => hazard.signal === 'DANGER');
  const heldAt = (hazard: Hazard, asked: string): State => ({
    ...talkAt(book, asked),
    held: [{ stop: hazard.id, session: 0 }],
  });

  it('is never cleared by a line alone', () => {
    const cases = dangers.flatMap((hazard) => hazard.clear.ask.map((asked) => ({ hazard, asked })));
    const typed = fc.oneof(
      line,
      fc.constantFrom('1', '2', '3', '4', 'yes', 'no', '20 C', '50 C', 'same as last time'),
    );
    fc.assert(
      fc.property(fc.constantFrom(...cases), typed, ({ hazard, asked }, text) => {
        const state = heldAt(hazard, asked);
        expect(mayClear(hazard, state, understand(book, state, text))).toBe(false);
      }),
      { numRuns: 3000 },
    );
  });

  it.each(dangers.map((hazard) => [hazard.id, hazard] as const))(
    '%s takes no other word for yes',
    (_id, hazard) => {
      for (const asked of hazard.clear.ask) {
        const state = heldAt(hazard, asked);
        for (const text of ['1', '2', '3', 'yes', 'no', '20 C', '50 C']) {
          const event = understand(book, state, text);
          if (event?.type !== 'AnswerDoubted' || !/DANGER stop/.test(event.says)) continue;
          const doubted = step(state, { ...event, at: '2026-03-02T09:00:00Z' }).state;
          for (const other of ['y', 'ok', 'right', 'sure', 'yep', 'yes I think', 'keep', '1', text]) {
            const said = understand(book, doubted, other);
            expect(other === 'yes' || !mayClear(hazard, state, said), other).toBe(true);
          }
          expect(understand(book, doubted, 'yes')).toMatchObject({
            type: 'AnswerGiven',
            answer: event.meant,
          });
        }
      }
    },
  );
});
