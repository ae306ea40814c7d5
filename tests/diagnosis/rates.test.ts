import { describe, expect, it, vi } from 'vitest';
import { troubleshootingPage } from '../../src/commands/troubleshooting-page.ts';
import { book } from '../rulebook/cases.ts';
import { rates, ratesInWords } from './rates.ts';

vi.setConfig({ testTimeout: 120_000 });

const { diagnosis } = book;
if (!diagnosis) throw new Error('rules/diagnosis is empty');
const found = rates(diagnosis, 250);

// Cases are drawn from our own tables: this shows how well the checks are chosen, not how true the tables are.
describe('the choice of the next check', () => {
  it('needs at most 60 % of the checks of a fixed list at the same hit rate', () => {
    expect(found.equal.ours / found.equal.listed).toBeLessThanOrEqual(0.6);
  });

  it('finds the cause about as often as the whole list does', () => {
    expect(found.ways.ours.firstThree).toBeGreaterThan(0.85);
    expect(found.ways.ours.first).toBeGreaterThan(found.ways.listed.first - 0.05);
  });

  it.each(found.orders)('costs at most 15 % more than the best order for $complaint', ({ best, ours }) => {
    expect(ours / best).toBeLessThanOrEqual(1.15);
    expect(ours).toBeGreaterThanOrEqual(best - 1e-9);
  });

  it('loses less than 10 points when every likelihood word is moved one up or down', () => {
    expect(found.ways.ours.firstThree - found.ways.moved.firstThree).toBeLessThan(0.1);
  });
});

describe('the page about troubles', () => {
  const page = troubleshootingPage(book, ratesInWords(found));

  it('stands in docs/troubleshooting.md as the rules have it', async () => {
    await expect(page).toMatchFileSnapshot('../../docs/troubleshooting.md');
  });

  it.each(diagnosis.causes.map(({ id, name }) => [id, name] as const))('has a part about %s', (id, name) => {
    expect(page.includes(`### ${name}\n`)).toBe(true);
    expect(page.includes(`<a id="${id}"></a>`)).toBe(true);
  });

  it('leads from every complaint to its causes', () => {
    for (const { say, core } of diagnosis.complaints) {
      expect(page.includes(`### ${say}\n`), say).toBe(true);
      for (const cause of core) expect(page.includes(`(#${cause})`), cause).toBe(true);
    }
    expect(/undefined|NaN|not known|\{limit/.exec(page)).toBeNull();
  });
});
