import { describe, expect, it, vi } from 'vitest';
import { todayUnder } from '../../src/commands/audit.ts';
import type { TalkEvent } from '../../src/conversation/events.ts';
import { audit } from '../../src/review/audit.ts';
import { troubleAsks } from '../../src/rulebook/trouble-questions.ts';
import { book } from '../rulebook/cases.ts';
import { TroubleTalk, unsure } from '../scenarios/trouble-talk.ts';
import { demoNames } from './demo-logs.ts';
import { demoLog } from './edited-log.ts';

// A machine under load is slow, not wrong.
vi.setConfig({ testTimeout: 120_000 });

const today = todayUnder(book);
const auditOf = (events: readonly TalkEvent[]) =>
  audit(
    today,
    events.map((event, index) => ({ seq: index + 1, event })),
  );

/** What changed rules bring is in audit-changes.test.ts. */
describe('an audit under the rules that the log was made under', () => {
  it.each(demoNames)('of %s finds no difference', async (name) => {
    expect(await audit(today, demoLog(name))).toEqual([]);
  });

  it('of a log that breaks off finds none, wherever it breaks off', async () => {
    const log = demoLog('dangerous-rig-stopped');
    for (const end of [1, 2, 3, 20, 33]) expect(await audit(today, log.slice(0, end))).toEqual([]);
  });

  it('of a trouble by itself finds none', async () => {
    const talk = await new TroubleTalk().openAlone();
    await talk.answer({ alarm: 'no danger', 'trouble:words': 'the fuel is cloudy' });
    await talk.say('yes');
    await talk.answer({ ...unsure, [troubleAsks.stage]: 'not sure' });
    expect(talk.events.filter(({ type }) => type === 'TroubleWeighed').length).toBeGreaterThan(3);
    expect(await auditOf(talk.events)).toEqual([]);
  });

  it('of a trouble in the middle of a batch finds none', async () => {
    const talk = new TroubleTalk();
    const events = demoLog('clean-first-batch').map(({ event }) => event);
    const settling = events.slice(
      0,
      events.findLastIndex((event) => event.type === 'RulesEvaluated' && event.stage === 'settle'),
    );
    talk.events.push(...settling);
    talk.session.restore(settling);
    talk.clock.pass(60 * 24 * 7);
    await talk.say('something is wrong: the glycerin has gone hard and will not drain');
    await talk.toVerdict({ [troubleAsks.right]: 'yes', [troubleAsks.stage]: 'settling' });
    await talk.say('go on where we were');
    expect(talk.trouble).toBe(undefined);
    expect(await auditOf(talk.events)).toEqual([]);
  });

  it('of answers taken back and changed finds none', async () => {
    const talk = await new TroubleTalk().open();
    await talk.say('a learner', '1', 'back', '2', 'note hello', 'why', 'change who to another learner');
    expect(talk.events.map(({ type }) => type)).toContain('AnswerWithdrawn');
    expect(await auditOf(talk.events)).toEqual([]);
  });
});
