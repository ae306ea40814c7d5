import { describe, expect, it } from 'vitest';
import { emptyState } from '../../src/conversation/state.ts';
import { viewOf } from '../../src/conversation/view.ts';
import { troubleAsks } from '../../src/rulebook/trouble-questions.ts';
import { roomFor } from '../../src/screen/room.ts';
import { book } from '../rulebook/cases.ts';

const [first] = book.stages;
const asking = (question: string) =>
  viewOf(book, { ...emptyState, batch: '2026-03-02-1', stage: first?.stage ?? '', asking: question });
const status = 'Stage 1 of 20: The rig, the place and the people  answered 0 of up to 22  batch 2026-03-02-1';

describe('the live part', () => {
  it('shows every question in full on an ordinary window', () => {
    const cramped = Object.keys(book.questions).filter(
      (id) => roomFor(asking(id), status, 24, 80) !== 'full',
    );
    // The list of all troubles is longer than such a window: its choices run together there.
    expect(cramped).toEqual([troubleAsks.complaint]);
    expect(roomFor(asking(troubleAsks.complaint), status, 24, 80)).toBe('tight');
  });

  it('runs choices together, then leaves them to their keys, as the window shrinks', () => {
    expect(roomFor(asking('alarm'), status, 8, 80)).not.toBe('full');
    expect(roomFor(asking('alarm'), status, 4, 40)).toBe('bare');
  });
});
