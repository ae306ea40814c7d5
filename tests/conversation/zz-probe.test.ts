import { book } from '../rulebook/cases.ts';
import { it } from 'vitest';
import { talkAt } from './understood.ts';
import { understand } from '../../src/conversation/understanding/understand.ts';
import { readFileSync } from 'node:fs';
it('probe', () => {
const lines = [...readFileSync('tests/conversation/urgent.test.ts','utf8').split('const calm')[0].matchAll(/^  (['"])(.+)\1,$/gm)].map((m) => m[2]);
for (const l of lines) { const e = understand(book, { ...talkAt(book, 'drain-look'), asking: 'alarm', alarm: true }, l) as any; console.log(l, '=>', e.type, e.answer?.choice ?? e.meant?.choice ?? e.says?.slice(0,60)); }
const at = (q: string, l: string) => { const e = understand(book, talkAt(book, q), l) as any; console.log(q, '|', l, '=>', e?.type, JSON.stringify(e?.answer ?? e?.meant ?? e?.request), e?.says?.slice(0,120)); };
at('drain-look', 'nothing I think, bit of water maybe');
at('rested', 'yeah had a beer at lunch but im fine');
at('heat-behaviour', "it's crackling a bit");
at('dry-behaviour', "it's crackling a bit");
at('water-test', 'it spat a little');
at('alkali-kind', 'lye');
at('oil-temperature', '300 F');
at('oil-volume', '43 gal, 60 F');
at('maker', 'why do you need my name'); at('maker', 'what do you mean');
at('maker', 'my wife is here with me');
});
