import { it } from 'vitest';
import { book } from '../rulebook/cases.ts';
import { seeded } from './random.ts';
import { atRandom, best, checklist, draw, play, summarise } from './simulate.ts';
import { compare, smallProblem } from './best-order.ts';
it('sim', () => {
  const d = book.diagnosis!;
  const n = 10;
  const run = (c: any) => { const r = seeded(7); return summarise(Array.from({length:n},()=>play(d,d,draw(d,r),c,r))); };
  let t0 = Date.now();
  for (const [name, c] of [['best', best], ['list', checklist]] as const) {
    const s = run(c);
    console.log(name, s.first, s.firstThree, s.checks, s.cost, Date.now()-t0); t0 = Date.now();
  }
  for (const [c, s] of [['soft-hoses','use'],['cold-gel','store'],['odd-titration','titrate'],['slow-heating','react'],['foam-heating','dewater'],['drywash-soap','wash-dry'],['acid-high','store']]) {
    for (const k of [4]) {
    const p = smallProblem(d, c, s, k); const r = compare(p);
    console.log(c, k, p.checks.join(), r.best.toFixed(3), r.ours.toFixed(3), (r.ours/r.best).toFixed(3), Date.now()-t0); t0 = Date.now();
    }
  }
}, 600000);
