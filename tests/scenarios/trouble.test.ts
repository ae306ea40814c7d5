import { readFileSync } from 'node:fs';
import { describe, expect, it, vi } from 'vitest';
import { parse } from 'yaml';
import * as z from 'zod';
import { isOfTrouble } from '../../src/conversation/trouble/talk-of-trouble.ts';
import { troubleAsks } from '../../src/rulebook/trouble-questions.ts';
import { book } from '../rulebook/cases.ts';
import { TroubleTalk, unsure } from './trouble-talk.ts';

vi.setConfig({ testTimeout: 20_000 });

const typed = z.record(z.string(), z.string());
const { talks } = z
  .strictObject({
    talks: z.array(
      z.strictObject({
        complaint: z.string(),
        said: z.string(),
        stage: z.string(),
        stop: z.strictObject({ id: z.string(), clearing: typed }).optional(),
        answers: typed,
        cause: z.string(),
      }),
    ),
  })
  .parse(parse(readFileSync(new URL('./trouble.yaml', import.meta.url), 'utf8')));

const { diagnosis } = book;
if (!diagnosis) throw new Error('the rules have no diagnosis');

function sayOf(finding: string, choice: string): string {
  const say = diagnosis?.findings.find(({ id }) => id === finding)?.choices[choice]?.say;
  if (say === undefined) throw new Error(`no choice ${choice} of ${finding}`);
  return say;
}

const sayStage = (id: string) => diagnosis.weighing.stages.find((stage) => stage.id === id)?.say ?? id;

describe('from the first sentence to the cause', () => {
  it('is told for every complaint that the rules know', () => {
    expect(talks.map(({ complaint }) => complaint).sort()).toEqual(
      diagnosis.complaints.map(({ id }) => id).sort(),
    );
  });

  it.each(talks)(
    '$complaint: "$said" is $cause',
    async ({ complaint, said, stage, stop, answers, cause }) => {
      const talk = await new TroubleTalk().openAlone();
      await talk.answer({ alarm: 'no danger', 'trouble:words': said });
      expect(talk.trouble?.proposed[0]).toBe(complaint);
      expect(talk.said('asks-back').at(-1)).toContain('I understood:');

      await talk.say('yes');
      expect(talk.held, 'danger comes before any check').toEqual(stop ? [stop.id] : []);
      if (stop) {
        await talk.answer(stop.clearing);
        expect(talk.held).toEqual([]);
        expect(talk.trouble?.complaint).toBe(complaint);
      }
      expect(talk.asked.filter((one) => diagnosis.findings.some(({ id }) => id === one))).toEqual([]);

      const spoken = Object.fromEntries(
        Object.entries(answers).map(([id, choice]) => [id, sayOf(id, choice)]),
      );
      await talk.toVerdict({ ...spoken, [troubleAsks.stage]: sayStage(stage) });
      expect(talk.trouble?.stage).toBe(stage);
      expect(talk.causes[0]).toBe(cause);
      const advice = talk.said('advice').join('\n');
      const told = diagnosis.causes.find(({ id }) => id === cause);
      expect(advice).toMatch(/(Found|Most likely) \(\d+ %\): /);
      expect(advice).toContain(told?.say);
      for (const part of ['Proof: ', 'Cure: ', 'Left alone: ', 'Next time: ']) expect(advice).toContain(part);
      talk.expectReplayMatches();

      await talk.say('go on where we were');
      expect(talk.session.state.ended, 'a trouble by itself ends with its verdict').toBe('finished');
      expect(Object.keys(talk.session.state.answers).filter(isOfTrouble)).toEqual([]);
      talk.expectReplayMatches();
    },
  );
});

/** Answers by which the stops of this page are cleared, whichever of their questions come up. */
const clearing = Object.assign({}, ...talks.map(({ stop }) => stop?.clearing ?? {})) as Record<
  string,
  string
>;

describe('danger in the middle of a finding out', () => {
  it.each([
    ['still wet, the oil has been heated for hours', 'dewater', 'heat-behaviour', 'popping', 'R09-reported'],
    ['this batch came out much darker than usual', 'finish', 'element-cover', 'uncovered', 'R10-reported'],
  ])(
    '%j at %s: %s is %s stops it with %s, and it goes on after clearing',
    async (said, stage, finding, choice, stop) => {
      const talk = await new TroubleTalk().openAlone();
      await talk.answer({
        ...unsure,
        alarm: 'no danger',
        [troubleAsks.words]: said,
        [troubleAsks.right]: 'yes',
        [troubleAsks.stage]: sayStage(stage),
        [finding]: sayOf(finding, choice),
      });
      expect(talk.asked.at(-1)).toBe(finding);
      expect(talk.held).toEqual([stop]);
      expect(talk.said('stop').at(-1)).toContain('Before going on:');

      await talk.answer(clearing);
      expect(talk.held).toEqual([]);
      expect(talk.trouble?.found).toContainEqual({ finding, choice });
      await talk.toVerdict({});
      talk.expectReplayMatches();
    },
  );

  it.each([
    ['the fuel smells of alcohol', 'methanol-smell'],
    ['the fuel line is leaking at the seal', 'soft-hoses'],
  ])('%j asks for the danger first, and is still known after', async (said, complaint) => {
    const talk = await new TroubleTalk().openAlone();
    await talk.say('no danger', said);
    expect(talk.asking).toBe('alarm');
    await talk.say('no danger');
    expect([talk.asking, talk.trouble?.proposed[0]]).toEqual([troubleAsks.right, complaint]);
    expect(talk.said('asks-back').at(-1)).toContain('I understood:');
  });

  it('a vapour alarm that these words already raised is not raised again by the complaint', async () => {
    const talk = await new TroubleTalk().openAlone();
    await talk.say('no danger', 'the fuel smells of alcohol', 'alcohol smell');
    expect(talk.held).toEqual(['R03']);
    await talk.answer(clearing);
    expect([talk.held, talk.asking]).toEqual([[], troubleAsks.right]);
    await talk.say('yes');
    expect([talk.held, talk.trouble?.complaint]).toEqual([[], 'methanol-smell']);
    talk.expectReplayMatches();
  });

  it.each(['my eyes are stinging', 'fire', 'lye in my eye', "it's boiling over"])(
    '%j is a cry, not a description',
    async (said) => {
      const talk = await new TroubleTalk().openAlone();
      await talk.say('no danger', said);
      expect(talk.trouble?.words).toBe(undefined);
      // Where the words plainly say what it is the stop holds already; else the list is asked.
      expect(talk.asking === 'alarm' || talk.held.length > 0).toBe(true);
    },
  );
});
