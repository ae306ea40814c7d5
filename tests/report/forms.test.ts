import { describe, expect, it } from 'vitest';
import { report } from '../../src/commands/report.ts';
import { UsageError } from '../../src/commands/usage-error.ts';
import { csvField, toCsv } from '../../src/report/csv.ts';
import { toMarkdown } from '../../src/report/markdown.ts';
import { toHtml } from '../../src/report/page/to-html.tsx';
import { demoReport, demos, goingOn, head, logOf, reportOf } from './made.ts';
import { readCsv } from './read-csv.ts';

const heads = [
  'The batch at a glance',
  'Temperature and time',
  'Doses',
  'Tests against their limits',
  'Looks, jars and pans',
  'Stops and what cleared them',
  'Where it left the straight way',
  'Troubles',
  'The mentor&#x27;s review',
  'The maker&#x27;s notes',
  'Every answer, by stage',
  'Sources',
  'Where this report comes from',
];

const plain = (text: string) => text.replaceAll('&#x27;', "'");

describe.each(demos)('the report of %s', (demo) => {
  const report = demoReport(demo);
  const html = toHtml(report);
  const markdown = toMarkdown(report);
  const rows = readCsv(toCsv(report));

  it('has every section, as a page and as text', () => {
    for (const title of heads) expect(html).toContain(`>${title}</h2>`);
    for (const title of heads) expect(markdown).toContain(`## ${plain(title)}\n`);
  });

  it('shows nothing that is missing as if it were a value', () => {
    for (const text of [html, markdown, toCsv(report)])
      expect(text).not.toMatch(/undefined|NaN|\[object|\{limit\./);
  });

  it('is one page under 300 kB that fetches nothing and runs nothing', () => {
    expect(Buffer.byteLength(html)).toBeLessThan(300_000);
    expect(html).toContain(
      '<meta http-equiv="Content-Security-Policy" content="default-src &#x27;none&#x27;; style-src',
    );
    expect(html).not.toMatch(
      /<(script|img|link|iframe|object|embed|form)\b|\ssrc=|\son\w+=|url\(|@import|href="(?!#)/,
    );
  });

  it('says which log it tells of', () => {
    for (const text of [html, markdown]) expect(text).toContain(head);
  });

  it('says as a table what it says as text: a row for each fact, each row as wide as its head', () => {
    const [first, ...others] = rows;
    const facts = report.sections.reduce((sum, { entries }) => sum + entries.length, 0);
    expect(others).toHaveLength(facts + report.sources.length + report.foot.length);
    expect(new Set(rows.map((row) => row.length))).toEqual(new Set([first?.length]));
  });

  it('cites every source by the number it has in the list', () => {
    const used = report.sections.flatMap(({ entries }) => entries.flatMap(({ sources }) => sources ?? []));
    expect(report.sources.map(({ id }) => id)).toEqual([...new Set(used)]);
    for (const { number } of report.sources) expect(html).toContain(`[${number}]`);
  });

  it('names the axes of every curve and says in words what it shows', () => {
    const curves = html.match(/<svg viewBox="0 0 360.*?<\/svg>/gs) ?? [];
    expect(curves).toHaveLength(report.panels.length);
    for (const curve of curves)
      expect(curve).toMatch(
        /<title .*?temperature against time<\/title><desc .*°C.*°F.*time of day \(UTC\)/s,
      );
  });
});

it('gives doses and tests with their ±', () => {
  const html = toHtml(demoReport('clean-first-batch'));
  const table = (id: string) => new RegExp(`<table class="${id}">.*?</table>`, 's').exec(html)?.[0] ?? '';
  expect(table('doses').match(/ ± /g)?.length).toBeGreaterThan(10);
  expect(table('tests').match(/ ± /g)?.length).toBeGreaterThan(6);
});

describe('text of a log', () => {
  const hostile =
    '<script>alert(1)</script> <img src=x onerror=alert(2)> | `x` [a](http://b.example) \u202egnp.exe \u001b[2J\nend';
  const report = reportOf(
    goingOn(logOf('dangerous-rig-stopped'), [
      { type: 'NoteMade', text: hostile },
      { type: 'NoteMade', text: '=HYPERLINK("http://b.example";"click")' },
      { type: 'ReviewOpened', mentor: '"><script>m()</script>', program: 'p', rules: 'r' },
      { type: 'CommentMade', text: '@SUM(A1:A9), "quoted"', record: 2 },
    ]),
  );

  it('is text on the page: no mark-up, and what turns the writing round is shown', () => {
    const html = toHtml(report);
    expect(html).not.toMatch(/<script|<img|onerror=alert\(2\)>(?!&)/);
    expect(html).toContain('&lt;script&gt;alert(1)&lt;/script&gt;');
    expect(html).toContain('\\u{202e}gnp.exe \\x1b[2J\\nend');
    // biome-ignore lint/suspicious/noControlCharactersInRegex: these are what must not be there
    expect(html).not.toMatch(/[\u202e\u001b]/);
  });

  it('is text in Markdown too, and stays in its cell', () => {
    const line =
      toMarkdown(report)
        .split('\n')
        .find((one) => one.includes('alert')) ?? '';
    expect(line).not.toMatch(/(?<!\\)<|(?<!\\)`|(?<!\\)\[/);
    expect(line.match(/(?<!\\)\|/g)).toHaveLength(4);
    expect(line).not.toContain('http://');
  });

  it('starts no formula in a spreadsheet', () => {
    const fields = readCsv(toCsv(report)).flat();
    expect(fields).toContain(`'=HYPERLINK("http://b.example";"click")`);
    expect(
      fields.filter((field) => /^[=+@\t]/.test(field) || /^-(?!\d+(\.\d+)?(e[+-]?\d+)?$)/.test(field)),
    ).toEqual([]);
  });
});

describe('a field of the table', () => {
  // RFC 4180, section 2, rules 5 to 7: looked up before, cited here from memory.
  it.each([
    ['plain', 'plain'],
    ['a,b', '"a,b"'],
    ['say "x"', '"say ""x"""'],
    ['two\nlines', '"two\nlines"'],
    ['-2.5', '-2.5'],
    ['-2 + 3', "'-2 + 3"],
    ['+1', "'+1"],
    ['\tx', "'\tx"],
  ])('%j becomes %j', (text, field) => {
    expect(csvField(text)).toBe(field);
  });
});

describe('the ending of the file', () => {
  it.each(['x.constructor', 'x.toString', 'x.__proto__', 'x.hasOwnProperty', 'x.pdf', 'x'])(
    '%s is refused in words before anything is read',
    async (to) => {
      const asked = report({ log: 'no-such-log', to, over: false });
      await expect(asked).rejects.toThrow(UsageError);
      await expect(asked).rejects.toThrow('says no form that I can write');
    },
  );
});
