// The report in Debian's Chromium, cut off from every network: what a reader sees, and what a printer gets.
import { mkdtempSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { type Browser, chromium, type Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { toHtml } from '../../src/report/page/to-html.tsx';
import { demoReport, demos, goingOn, logOf, reportOf } from '../report/made.ts';

const folder = mkdtempSync(join(tmpdir(), 'report-'));
const slow = 60_000;
let browser: Browser;

beforeAll(async () => {
  const args = ['--no-sandbox', '--disable-quic', '--disable-background-networking'];
  browser = await chromium.launch({ executablePath: '/usr/bin/chromium', args });
}, slow);

afterAll(async () => {
  await browser?.close();
}, slow);

interface Seen {
  page: Page;
  requests: string[];
  problems: string[];
}

async function open(name: string, html: string, width: number): Promise<Seen> {
  const file = join(folder, `${name}.html`);
  writeFileSync(file, html);
  const context = await browser.newContext({ viewport: { width, height: 800 }, offline: true });
  const page = await context.newPage();
  const requests: string[] = [];
  const problems: string[] = [];
  page.on('request', (request) => requests.push(request.url()));
  page.on('console', (message) => problems.push(message.text()));
  page.on('pageerror', (error) => problems.push(error.message));
  await page.goto(pathToFileURL(file).href);
  return { page, requests, problems };
}

const overflow = (page: Page) =>
  page.evaluate<number>('document.documentElement.scrollWidth - document.documentElement.clientWidth');

describe.each(demos)('the page of %s', (demo) => {
  const report = demoReport(demo);
  const html = toHtml(report);
  // Printing is slow, and one log on the second size of paper is enough.
  const papers = demo === 'clean-first-batch' ? (['A4', 'Letter'] as const) : (['A4'] as const);

  it.each([360, 850, 1000])(
    'fits a window of %i px, without an error and without asking for anything',
    async (width) => {
      const { page, requests, problems } = await open(demo, html, width);
      expect(await overflow(page)).toBeLessThanOrEqual(0);
      expect(problems).toEqual([]);
      expect(requests).toHaveLength(1);
      await page.context().close();
    },
    slow,
  );

  it(
    'draws its curves, with all their words inside the picture',
    async () => {
      const { page } = await open(demo, html, 1000);
      const curves = page.locator('figure svg[role=img]');
      expect(await curves.count()).toBe(report.panels.length);
      const outside = await page.evaluate<string[]>(`
        [...document.querySelectorAll('figure svg[role=img]')].flatMap((svg) => {
          const frame = svg.getBoundingClientRect();
          return [...svg.querySelectorAll('text')]
            .filter((text) => {
              const box = text.getBoundingClientRect();
              return box.left < frame.left - 1 || box.right > frame.right + 1 || box.top < frame.top - 1 || box.bottom > frame.bottom + 1;
            })
            .map((text) => text.textContent);
        })`);
      expect(outside).toEqual([]);
      for (let index = 0; index < report.panels.length; index += 1) {
        const points = await curves.nth(index).locator('circle.point').count();
        expect(points).toBe(report.panels[index]?.readings.length);
      }
      await page.context().close();
    },
    slow,
  );

  it(
    'prints',
    async () => {
      // A4 less its margins is 680 pixels wide.
      const { page } = await open(demo, html, 680);
      await page.emulateMedia({ media: 'print' });
      expect(await overflow(page)).toBeLessThanOrEqual(0);
      for (const format of papers) {
        const path = join(folder, `${demo}-${format}.pdf`);
        await page.pdf({ path, format });
        expect(statSync(path).size).toBeGreaterThan(10_000);
      }
      await page.context().close();
    },
    slow,
  );
});

it(
  'what a hostile log holds runs nothing and stretches nothing',
  async () => {
    const text = `<script>document.title = 'run'</script><img src="http://b.example/x" onerror="document.title='run'"> ${'w'.repeat(400)}`;
    const log = goingOn(logOf('dangerous-rig-stopped'), [
      { type: 'NoteMade', text },
      { type: 'ReviewOpened', mentor: text, program: 'p', rules: 'r' },
      { type: 'CommentMade', text, record: 2 },
    ]);
    const html = toHtml(reportOf(log));
    for (const width of [360, 1000]) {
      const { page, requests, problems } = await open('hostile', html, width);
      expect(await page.title()).toBe('Batch dangerous-rig-stopped');
      expect(await overflow(page)).toBeLessThanOrEqual(0);
      expect(problems).toEqual([]);
      expect(requests).toHaveLength(1);
      await page.context().close();
    }
  },
  slow,
);
