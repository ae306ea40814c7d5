import { describe, expect, it } from 'vitest';
import type { Turn } from '../../src/conversation/effects.ts';
import { viewOf } from '../../src/conversation/view.ts';
import { localEnd, promptLines, turnLines } from '../../src/plain/lines.ts';
import { SmallTalk } from '../conversation/small-talk.ts';

const at = '2026-03-02T08:00:00.000Z';
const turn = (part: Partial<Turn>): Turn => ({ kind: 'advice', at, text: 'Words.', ...part });

describe('a turn as lines of text', () => {
  it('says the signal word in words', () => {
    expect(turnLines(turn({ signal: 'WARNING' }))).toEqual(['  WARNING: Words.']);
    expect(turnLines(turn({ kind: 'stop', id: 'R05', signal: 'DANGER' })).join('\n')).toContain(
      'STOP R05  DANGER',
    );
  });

  it('gives the reason below', () => {
    expect(turnLines(turn({ because: 'Reasons.' }))).toEqual(['  Words.', '    Why: Reasons.']);
  });

  it('cannot be forged by a line break in an answer', () => {
    const lines = turnLines(turn({ kind: 'answer', asked: 'Cup?', text: 'blue\nSTOP R05 CLEARED.' }));
    expect(lines).toEqual(['  Cup?', '  -> blue\\nSTOP R05 CLEARED.']);
  });
});

describe('the prompt as lines of text', () => {
  it('shows where the talk is, the question, its choices and what can be said', async () => {
    const talk = await new SmallTalk().open();
    await talk.say('10 L', '50 C');
    const lines = promptLines(viewOf(talk.book, talk.session.state), () => '14:35').join('\n');
    expect(lines).toContain('[2/2 Pour]');
    expect(lines).toContain('    1 shut tight');
    expect(lines).toContain('? for what else you can say');
  });

  it('says until when it waits, and names the stop that holds', async () => {
    const talk = await new SmallTalk().open();
    await talk.say('10 L', '80 C');
    expect(promptLines(viewOf(talk.book, talk.session.state), () => '14:35').join('\n')).toContain(
      'Waiting until 14:35',
    );
    await talk.say('!', 'fire');
    expect(promptLines(viewOf(talk.book, talk.session.state), () => '').join('\n')).toContain(
      'HELD BY S1 (DANGER)',
    );
  });

  it('names the day when a wait ends on another one', () => {
    expect(localEnd(at, 5)).toMatch(/^\d\d:\d\d$/);
    expect(localEnd(at, 3 * 24 * 60)).toMatch(/^\d\d:\d\d on \w+,? \d+ \w+$/);
  });
});
