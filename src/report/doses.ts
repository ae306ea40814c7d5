import { hasVisited } from '../review/visits.ts';
import { factEntry, type Told } from './naming.ts';
import { type Section, whenColumns } from './section.ts';

/**
 * What the recipe rested on, what it said, and what really went in: answers and figures in the order of the work.
 * Figures of a stage that the batch never entered are worked out all the same; they were no dose of it.
 */
const doses: readonly (readonly [group: string, facts: readonly string[], stage?: string])[] = [
  [
    'What the recipe rests on',
    [
      'oil-volume-20c',
      'titrant-net',
      'ffa',
      'water-ppm',
      'alkali-kind',
      'assay',
      'methanol-percent',
      'first-share',
    ],
  ],
  [
    'Thinned with better oil',
    ['poor-oil-volume', 'blend-oil-volume', 'blend-expected-ffa', 'blend-found'],
    'blend',
  ],
  [
    'Acid treatment',
    ['pretreat-methanol-needed', 'pretreat-methanol', 'acid-to-measure', 'acid-added', 'acid-gap'],
    'pretreat',
  ],
  [
    'The recipe',
    [
      'alkali-to-weigh',
      'alkali-per-litre',
      'alkali-pure-per-litre',
      'methanol-volume',
      'methanol-mole-ratio',
    ],
  ],
  [
    'What was given',
    [
      'alkali-weighed',
      'alkali-gap',
      'methanol-measured',
      'methanol-share-given',
      'methanol-gap',
      'catalyst-loading',
    ],
  ],
  [
    'Second stage',
    [
      'unreacted-share',
      'second-stage-methanol',
      'second-stage-methanol-given',
      'second-stage-alkali',
      'second-stage-alkali-given',
    ],
    'second-stage',
  ],
  ['In all', ['methanol-total', 'alkali-total', 'methanol-recovered']],
];

export const doseFacts: readonly string[] = doses.flatMap(([, facts]) => facts);

export function doseSection(told: Told): Section {
  const visited = doses.filter(([, , stage]) => !stage || hasVisited(told.story, stage));
  return {
    id: 'doses',
    title: 'Doses',
    caption: 'Doses worked out and given, each with its ±',
    lead: 'Behind ± stands how far the true value may lie on either side, by the readings it rests on.',
    columns: [{ field: 'item', head: 'Dose' }, { field: 'value', head: 'Value ±' }, ...whenColumns],
    entries: visited.flatMap(([group, facts]) =>
      facts.flatMap((fact) => {
        const entry = factEntry(told, fact);
        return entry ? [{ ...entry, group }] : [];
      }),
    ),
    none: 'The batch never came to a dose.',
  };
}
