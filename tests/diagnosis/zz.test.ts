import { it } from 'vitest';
import { existsSync, readFileSync } from 'node:fs';
import { parse } from 'yaml';
import { book } from '../rulebook/cases.ts';
import { readDescription } from '../../src/conversation/understanding/read-description.ts';
import { weigh } from '../../src/diagnosis/verdict.ts';
it('cases', () => {
  const d = book.diagnosis!;
  const f = new URL('./cases.yaml', import.meta.url);
  if (!existsSync(f)) return console.log('none');
  const { cases } = parse(readFileSync(f, 'utf8'));
  let ok3 = 0, ok1 = 0, n = 0;
  for (const c of cases) {
    const r = readDescription(d, c.said);
    const truth = [c.cause].flat();
    let t: any = { complaint: r.complaints[0], stage: c.stage, found: r.found, passed: [] };
    let v = weigh(d, t, {}, []); let k = 0;
    while (v.next && k < 12) { k++; const a = c.answers[v.next.finding]; t = a ? { ...t, found: [...t.found, { finding: v.next.finding, choice: a }] } : { ...t, passed: [...t.passed, v.next.finding] }; v = weigh(d, t, {}, []); }
    const rank = v.causes.findIndex((x) => truth.includes(x.id));
    n++; if (rank < 3) ok3++; if (rank === 0) ok1++;
    console.log(rank < 3 ? 'ok ' : 'BAD', rank, c.name, '|', truth.join(), '|', r.complaints.slice(0,3).join(), '|', r.found.map((x) => x.finding + '=' + x.choice + (c.answers[x.finding] === undefined ? '?' : c.answers[x.finding] === x.choice ? '+' : '!!')).join(' '), '| asked', t.found.length - r.found.length, t.passed.length, '|', v.causes.slice(0, 3).map((x) => x.id + ' ' + x.probability.toFixed(2)).join(', '));
  }
  console.log(n, ok3 / n, ok1 / n);
});
