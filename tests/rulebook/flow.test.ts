import { describe, expect, it } from 'vitest';
import type { Stage } from '../../src/rulebook/book.ts';
import { book } from './cases.ts';

function waysFrom(stage: Stage): string[] {
  return [
    ...stage.leave.map((leave) => leave.to),
    ...stage.advice.flatMap((advice) => advice.then?.go ?? []),
    ...book.hazards
      .filter((hazard) => hazard.stages !== 'any' && hazard.stages.includes(stage.stage))
      .flatMap((hazard) => hazard.clear.go?.map((way) => way.to) ?? []),
  ];
}

const ways = new Map(book.stages.map((stage) => [stage.stage, waysFrom(stage)]));

function reachableFrom(start: string): Set<string> {
  const seen = new Set<string>();
  const next = [start];
  for (let at = next.pop(); at !== undefined; at = next.pop()) {
    if (seen.has(at)) continue;
    seen.add(at);
    next.push(...(ways.get(at) ?? []));
  }
  return seen;
}

describe('the flow of stages', () => {
  it('reaches every stage from the rig', () => {
    const reached = reachableFrom('rig');
    expect(book.stages.map((stage) => stage.stage).filter((stage) => !reached.has(stage))).toEqual([]);
  });

  it.each(book.stages.map((stage) => stage.stage))('comes to an end from %s', (stage) => {
    expect(reachableFrom(stage).has('end')).toBe(true);
  });

  it('goes round the way that the trade goes round', () => {
    expect(ways.get('titrate')).toContain('dewater');
    expect(ways.get('decide')).toEqual(expect.arrayContaining(['blend', 'pretreat', 'methoxide', 'close']));
    expect(ways.get('blend')).toContain('titrate');
    expect(ways.get('pretreat')).toContain('titrate');
    expect(ways.get('conversion')).toEqual(expect.arrayContaining(['second-stage', 'settle']));
    expect(ways.get('second-stage')).toContain('conversion');
    expect(ways.get('filter')).toContain('dry');
  });
});
