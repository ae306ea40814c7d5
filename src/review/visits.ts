import type { State } from '../conversation/state.ts';
import type { InVisit, Place, StageTold, Story } from './story.ts';

/** The stage that a state is in, and which visit of it that is. */
export function inVisit({ stage, path }: State): Pick<InVisit, 'stage' | 'visit'> {
  return { stage, visit: path.filter((one) => one === stage).length };
}

/** The visits of the way that the batch took in the end, in their order: what a change undid does not count. */
export function visitsThatCount({ stages }: Story): StageTold[] {
  return stages.filter(({ undone }) => !undone);
}

export function visitsOf(story: Story, stage: string): StageTold[] {
  return visitsThatCount(story).filter((one) => one.stage === stage);
}

/** The visit that something belongs to; nothing where that visit was undone and not made again. */
export function visitOf(
  story: Story,
  { stage, visit }: Pick<InVisit, 'stage' | 'visit'>,
): StageTold | undefined {
  return visitsOf(story, stage).find((one) => one.visit === visit);
}

export const isSameVisit = (one: InVisit, other: InVisit): boolean =>
  one.stage === other.stage && one.visit === other.visit;

export function hasVisited(story: Story, stage: string): boolean {
  return visitsOf(story, stage).length > 0;
}

/** Whether the talk went on from a stage; the last one is left when the batch is finished. */
export function hasLeft(story: Story, stage: string): boolean {
  const isTheEnd = story.state.ended === 'finished' && story.state.stage === stage;
  return visitsOf(story, stage).some(({ left }) => left !== undefined || isTheEnd);
}

/** Stages entered, and those that going back undid: the talk is then in the one before them again. */
export function takePath(story: Story, before: State, after: State, place: Place): void {
  if (after.path === before.path) return;
  const strayed = before.path.findIndex((stage, index) => stage !== after.path[index]);
  const kept = strayed < 0 ? before.path.length : strayed;
  for (const visit of visitsThatCount(story).slice(kept)) visit.undone = place;
  const here = visitsThatCount(story).at(-1);
  if (kept < before.path.length && here) delete here.left;
  for (const stage of after.path.slice(kept)) {
    const leaving = visitsThatCount(story).at(-1);
    if (leaving) leaving.left = place.at;
    const visit = visitsOf(story, stage).length + 1;
    story.stages.push({ ...place, stage, visit });
  }
}
