import { normal } from './match-words.ts';
import { light } from './read-phrases.ts';

/** A word without the endings that change nothing for us: cloudy, cloudiness; foams, foaming. */
export function stem(word: string): string {
  return word.replace(/(?<=...)(iness|ness|ingly|ing|ed|ly|ies|es|s|y)$/, '');
}

/** The stems of the words that say something. */
export function tellingStems(text: string): Set<string> {
  const words = normal(text).split(' ');
  return new Set(words.filter((word) => word.length > 2 && !light.has(word)).map(stem));
}
