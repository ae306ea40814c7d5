import type { Plain } from '../../rulebook/condition.ts';
import { lastSaid, saysSomething } from '../given.ts';
import { answersTo } from '../log-reading.ts';
import type { ReviewFacts } from '../review-fact.ts';
import type { Story } from '../story.ts';
import { hasLeft } from '../visits.ts';

const toGround = [
  /\b(down|into|to) (the |a |our |my )?(storm |street |floor |yard )?(drain|gully|ditch|gutter|sink|toilet|stream)\b/i,
  /\b(poured|tipped|emptied|dumped|spread) (it |them )?(all )?(out|away|on|onto|into)\b/i,
];
const thrownAway = ['drain', 'spread', 'burned-raw', 'tipped'];
const destinations = {
  'glycerin-destination': 'glycerin',
  'wash-water-destination': 'wash water',
  'rejected-oil-to': 'rejected oil',
};
const texts = { 'waste-log': 'what the waste log tells', 'other-destination': 'glycerin' };

const saysThrownAway = (text: Plain | undefined): boolean =>
  typeof text === 'string' && toGround.some((way) => way.test(text));

function sentAstray(story: Story): string[] {
  const named = Object.entries(destinations).filter(([question]) =>
    thrownAway.includes(String(lastSaid(story, question))),
  );
  const written = Object.entries(texts).filter(([question]) => saysThrownAway(lastSaid(story, question)));
  return [...named, ...written].map(([, name]) => name);
}

/** What was made and has nowhere to be. */
function homeless(story: Story): string[] {
  const made = (question: string) => Number(lastSaid(story, question) ?? 0) > 0;
  const destination = lastSaid(story, 'glycerin-destination');
  const placed =
    destination === 'other' ? saysSomething(lastSaid(story, 'other-destination')) : destination !== undefined;
  const waterPlaced = lastSaid(story, 'wash-water-destination') !== undefined;
  return [
    ...(made('glycerin-litres') && !placed ? ['glycerin'] : []),
    ...(made('wash-water-total') && !waterPlaced ? ['wash water'] : []),
  ];
}

/** Before the batch has come past its by-products they may still stand in their drums. */
const isDue = (story: Story): boolean => hasLeft(story, 'by-products') || story.state.ended === 'finished';

const astray = (story: Story): string[] => [
  ...new Set([...sentAstray(story), ...(isDue(story) ? homeless(story) : [])]),
];

export const wasteFacts: ReviewFacts = {
  'waste-goes-astray': {
    about:
      'A by-product or rejected oil went down a drain, onto the ground or raw into a fire, or has no place named.',
    of: (story) => {
      const told = answersTo(story, [...Object.keys(destinations), ...Object.keys(texts)]);
      return isDue(story) || told.length > 0 ? astray(story).length > 0 : undefined;
    },
  },
  'waste-astray': {
    about: 'What went there, or has no place.',
    of: (story) => astray(story).join(', ') || undefined,
  },
};
