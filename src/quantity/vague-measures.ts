import type { Dimension } from './units.ts';

const dropReason = 'A drop has no fixed size: read millilitres off the burette, pipette or syringe.';
const pinchReason = 'That has no fixed size: weigh it and give grams.';
const containerReason = 'That comes in many sizes: give litres or gallons, or millilitres for small amounts.';
const normalReason =
  'N depends on the acid: give mol/L. For hydrochloric acid the two are the same, 0.01 N is 0.01 mol/L.';

const words: Record<string, string> = {};
for (const word of ['drop', 'drip', 'droplet', 'splash', 'dash', 'squirt', 'glug', 'trickle'])
  words[word] = dropReason;
for (const word of ['pinch', 'handful', 'scoop', 'scoopful', 'flake', 'pellet', 'spoon', 'spoonful'])
  words[word] = pinchReason;
for (const word of [
  'bucket',
  'bucketful',
  'pail',
  'jug',
  'jar',
  'bottle',
  'can',
  'jerrycan',
  'carboy',
  'drum',
  'barrel',
  'tote',
  'tub',
  'mug',
  'glass',
  'shot',
  'cap',
  'capful',
  'syringe',
  'tin',
  'bag',
  'cubie',
  'cubies',
  'keg',
  'tankful',
  'batch',
]) {
  words[word] = containerReason;
}

/** Why a measure such as 'drops' is not taken; undefined for any other word. */
export function whyNotAMeasure(word: string, wanted: Dimension): string | undefined {
  if (word === 'n' && wanted === 'molarity') return normalReason;
  if (wanted !== 'volume' && wanted !== 'mass') return undefined;
  const singular = word.replace(/(?<=.{2})(?:(?<=ss|ch)es|s)$/, '');
  for (const form of [word, singular]) if (Object.hasOwn(words, form)) return words[form];
  return undefined;
}
