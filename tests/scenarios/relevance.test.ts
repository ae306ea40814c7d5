import { readdirSync, readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it, vi } from 'vitest';
import { parse } from 'yaml';
import * as z from 'zod';
import { withMinutes } from '../../src/journal/answer-minutes.ts';
import { eventsOf, readJournal } from '../../src/journal/read.ts';
import { questionOf } from '../../src/rulebook/book.ts';
import { evaluate } from '../../src/rulebook/evaluate.ts';
import type { Occasion } from '../../src/rulebook/evaluation.ts';
import { askKey } from '../../src/rulebook/rule-keys.ts';
import { book, factsGiven } from '../rulebook/cases.ts';
import { answersThatMatter, leftOut } from './relevance-answers.ts';
import { demoFolder, type Visit, visitsIn, type Walk, walkStage } from './relevance-walk.ts';

vi.setConfig({ testTimeout: 300_000, hookTimeout: 300_000 });

const scenarios = z
  .array(
    z.strictObject({
      stage: z.string(),
      about: z.string(),
      batch: z.string(),
      after: z.string().optional(),
      given: z.record(z.string(), z.union([z.string(), z.number(), z.boolean(), z.array(z.string())])),
      'left-out': z.array(z.string()),
      asked: z.string(),
    }),
  )
  .parse(parse(readFileSync(new URL('relevance.yaml', import.meta.url), 'utf8')));

const stages = book.stages.map((stage) => stage.stage);
const walks: Walk[] = [];
const visits: Visit[] = [];

/** What is known when only the given answers are. */
function onlyGiven({ stage, given }: (typeof scenarios)[number]): Occasion {
  return { stage, facts: factsGiven(book, given), figures: {}, held: [], explained: [] };
}

/** A look at the rules from before a question was answered. */
function before(id: string, { facts, ...occasion }: Occasion): Occasion {
  const { [id]: _value, ...values } = facts.values;
  const { [id]: _status, ...status } = facts.status;
  return { ...occasion, figures: {}, explained: [], facts: { ...facts, values, status } };
}

/** Left out although some answer would change what the maker hears. */
async function wronglyLeftOut(ids: readonly string[], occasion: Occasion): Promise<string[]> {
  const found = [];
  for (const id of ids) found.push(...(await answersThatMatter(id, occasion)));
  return found;
}

beforeAll(async () => {
  for (const scenario of scenarios) walks.push(await walkStage(scenario));
  const batches = readdirSync(demoFolder).filter((name) => name.endsWith('.ndjson'));
  for (const batch of batches) visits.push(...visitsIn(batch, eventsOf(readJournal(demoFolder + batch))));
  visits.push(...walks.map((walk) => walk.visit));
});

it('has a scenario for every stage, with something left out and something asked', () => {
  const shown = scenarios.filter((one) => one['left-out'].length > 0).map((one) => one.stage);
  expect(stages.filter((stage) => !shown.includes(stage))).toEqual([]);
});

describe.each(scenarios.map((scenario, index) => ({ ...scenario, index })))('$stage: $about', (scenario) => {
  const quiet = scenario['left-out'];
  const walk = () => walks[scenario.index] as Walk;

  it('asks what matters and leaves out what does not', () => {
    expect(quiet.filter((id) => walk().asked.includes(id))).toEqual([]);
    expect(walk().asked).toContain(scenario.asked);
  });

  it('knows from the given answers alone that they are not needed', async () => {
    const outcome = await evaluate(book, withMinutes(onlyGiven(scenario)));
    const needed = quiet.filter((id) => {
      const { purpose, when } = questionOf(book, id);
      const open = when === undefined || outcome.true.includes(askKey(id));
      return open && (purpose === 'record' || outcome.deciding.includes(id));
    });
    expect(needed).toEqual([]);
  });

  it('would say the same whatever they were answered, early and at the end', async () => {
    expect(await wronglyLeftOut(quiet, onlyGiven(scenario))).toEqual([]);
    expect(await wronglyLeftOut(quiet, walk().visit.last)).toEqual([]);
  });

  it('is caught if it leaves out the one that matters', async () => {
    expect(await wronglyLeftOut([scenario.asked], walk().visit.last)).not.toEqual([]);
  });
});

describe('a relevance that lets everything go', () => {
  const deciding = scenarios
    .map((scenario, index) => ({ ...scenario, index }))
    .filter(({ asked }) => questionOf(book, asked).purpose === 'decide');

  it('is tried on several questions that only decide', () => {
    expect(deciding.map((scenario) => scenario.asked).length).toBeGreaterThan(4);
  });

  it.each(deciding)('$stage: is caught at $asked', async ({ asked, index }) => {
    const then = before(asked, (walks[index] as Walk).visit.last);
    const outcome = await evaluate(book, withMinutes(then));
    expect(leftOut(then, outcome)).not.toContain(asked);
    const careless = leftOut(then, outcome, []);
    expect(careless).toContain(asked);
    expect(await wronglyLeftOut(careless, then)).not.toEqual([]);
  });
});

describe('a question that only decides is left out where it decides nothing', () => {
  it('was looked for in every stage', () => {
    const seen = new Set(visits.map((visit) => visit.stage));
    expect(stages.filter((stage) => !seen.has(stage))).toEqual([]);
  });

  it('was found, beyond the gates that are closed to it', async () => {
    const found = new Set<string>();
    for (const { last } of visits) {
      const outcome = await evaluate(book, withMinutes({ ...last, figures: {}, explained: [] }));
      for (const id of leftOut(last, outcome)) found.add(id);
    }
    const some = ['acid-fizz', 'lab-due', 'settle-days', 'supplier-storage', 'vessel-heel'];
    expect([...found]).toEqual(expect.arrayContaining(some));
  });

  it.each(stages)('%s: whatever it were answered, nothing that is said would change', async (stage) => {
    for (const { batch, last } of visits.filter((one) => one.stage === stage)) {
      const fresh = { ...last, figures: {}, explained: [] };
      const outcome = await evaluate(book, withMinutes(fresh));
      expect(await wronglyLeftOut(leftOut(fresh, outcome), fresh), batch).toEqual([]);
    }
  });
});

describe('who watches a heated tank', () => {
  it('is asked at a second flash although the fuel was dried without heat in between', async () => {
    const { asked } = await walkStage({
      stage: 'flash',
      batch: 'clean-first-batch',
      given: { 'drying-way': 'none-needed', 'filter-fuel-temperature': 22 },
    });
    expect(asked).toContain('attended');
  });
});
