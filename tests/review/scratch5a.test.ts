import { book } from "../rulebook/cases.ts"; import { it } from "vitest";
import { editedStory } from './edited-log.ts';
import { findingsOf, doneWell } from '../../src/review/findings.ts';
import { readdirSync } from 'node:fs';
it("x", () => { for (const f of readdirSync('/work/main/transcripts-demo').filter(f=>f.endsWith('.ndjson'))) {
  const t=Date.now();
  const s = editedStory(book, {log: f.replace('.ndjson','')});
  console.log(f, Date.now()-t,'ms', s.state.ended, s.stages.map(x=>x.stage).join(' '));
  for (const x of findingsOf(book,s)) console.log('  ', x.check, x.signal, x.fix, x.name, '|', x.says, '|', x.because);
  for (const x of doneWell(book,s)) console.log('   +', x);
} }, 60000);
