import { describe, expect, it, vi } from 'vitest';
import type { EventBody } from '../../src/conversation/events.ts';
import { turnLines } from '../../src/plain/lines.ts';
import { reviewTurns } from '../../src/review/review-turns.ts';
import type { Story } from '../../src/review/story.ts';
import { book } from '../rulebook/cases.ts';
import { doubtfulStory, opened, signed, TryReview } from './try-review.ts';

vi.setConfig({ testTimeout: 60_000 });

describe('what the learner reads', () => {
  const at = '2026-03-09T08:00:00.000Z';
  const batchOpened: EventBody = { type: 'BatchOpened', batch: 'first', program: 'p', rules: 'r' };
  const coolEnough: EventBody = {
    type: 'AnswerGiven',
    question: 'oil-before-charge',
    answer: { kind: 'quantity', value: 54, unit: 'degC', plusMinus: 1 },
    text: '54 C',
  };
  const lines = (...events: EventBody[]) =>
    reviewTurns(
      book,
      [batchOpened, coolEnough, ...events].map((event, index) => ({
        seq: index + 1,
        event: { ...event, at },
      })),
    )
      .flatMap(turnLines)
      .map((line) => line.replaceAll('\u00a0', ' '));

  it('is each comment with what it is about, then the verdict', () => {
    expect(
      lines(
        opened,
        { type: 'CommentMade', text: 'Cool it first.', check: 'M08' },
        { type: 'CheckSeen', check: 'M08' },
        { type: 'CommentMade', text: 'Well read.', record: 2 },
        { type: 'CommentMade', text: 'A calm batch.' },
        signed,
      ),
    ).toEqual([
      '  A review of batch first:',
      '  Mentor A on M08, charged too hot: Cool it first.',
      '  Mentor A on record 2, "Oil before charge? 54.0 ± 1.0 °C (129.2 ± 1.8 °F)": Well read.',
      '  Mentor A: A calm batch.',
      '  Mentor A reviewed it: ready to go on alone.',
      '  - Done well: w',
      '  - To change: c',
    ]);
  });

  it('is nothing where a mentor only looked', () => {
    expect(lines(opened, { type: 'CheckSeen', check: 'M08' })).toEqual([]);
  });

  it('can forge no line and move no cursor', () => {
    const nasty = 'ok\nSTOP R14  DANGER\u001b[2J\u202e\r\nMentor A: all is well';
    const printed = lines(
      { ...opened, mentor: nasty } as EventBody,
      { type: 'CommentMade', text: nasty, check: nasty },
      { ...signed, mentor: nasty, well: nasty, change: nasty } as EventBody,
    );
    expect(printed).toHaveLength(5);
    // biome-ignore lint/suspicious/noControlCharactersInRegex: these must not reach the terminal
    expect(printed.join('\n')).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202a-\u202e]/);
    expect(printed.filter((line) => /^\s*(STOP|Mentor A:)/.test(line))).toEqual([]);
  });
});

describe('a hostile log', () => {
  it('shows its words, and obeys none', async () => {
    const story = doubtfulStory();
    const nasty = 'x\n57  05:54 settle: forged\u001b[31m\u202e';
    for (const told of story.answers)
      if (told.answer.kind === 'text')
        Object.assign(told, { answer: { kind: 'text', text: nasty }, text: nasty });
    story.answers.push({
      ...(story.answers[0] as Story['answers'][number]),
      question: 'gone\u001b[2J',
      answer: { kind: 'text', text: nasty },
      stage: 'settle',
    });
    const review = new TryReview({ ...story, batch: `b\u001b]0;x\u0007`, reviews: [] });
    await review.say('Mentor \u202eB');
    for (const stage of ['rig', 'settle', 'store', 'close']) await review.say(`show ${stage}`);
    const printed = review.turns.flatMap(turnLines).join('\n');
    // biome-ignore lint/suspicious/noControlCharactersInRegex: these must not reach the terminal
    expect(printed).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202a-\u202e]/);
    expect(printed).toContain('forged\\x1b[31m');
    expect(printed.split('\n').filter((line) => /^\W*57 {2}05:54 settle: forged/.test(line))).toEqual([]);
  });
});
