import { readQuantity } from '../../quantity/read-quantity.ts';
import { showQuantity } from '../../quantity/show.ts';
import { bandOf } from '../../rulebook/bands.ts';
import type { Question } from '../../rulebook/rule-schema.ts';
import type { Answer } from '../events.ts';
import { choicesOf } from '../wording.ts';
import { isNotReadNow } from './read-doubtful.ts';
import type { Reading } from './reading.ts';

/** A reading typed where the choices are bands of readings: "1800 ppm" at "1000 to 3000". */
export function readBands(question: Question, text: string): Reading | undefined {
  const { bands } = question;
  if (!bands || !/\d/.test(text)) return undefined;
  const choices = choicesOf(question);
  const named = choices.some(({ say, also }) =>
    [say, ...also].some((way) => way.toLowerCase() === text.trim().toLowerCase()),
  );
  const read = readQuantity(text, { unit: bands.unit });
  if (named || 'problem' in read || read.low !== undefined || read.bound) return undefined;
  const choice = bandOf(bands, read.value);
  if (choice === undefined) return undefined;
  const meant: Answer = { kind: 'choice', choice };
  const shown = showQuantity(read.value, bands.unit, {});
  const say = choices.find(({ id }) => id === choice)?.say ?? choice;
  const numbered = /^\d{1,2}$/.test(text.trim()) ? choices[Number(text) - 1] : undefined;
  if (numbered) {
    const either = [
      { say: `${shown} (${say})`, answer: meant },
      {
        say: `choice ${text.trim()}: ${numbered.say}`,
        answer: { kind: 'choice', choice: numbered.id } as const,
      },
    ];
    return numbered.id === choice
      ? { sure: meant }
      : { says: 'A reading, or the number of a choice?', meant, either };
  }
  const around = text.slice(0, read.spanStart) + text.slice(read.spanEnd);
  if (read.typed.unitAssumed || read.approx || isNotReadNow(around))
    return { says: `Is that ${shown}: ${say}?`, meant };
  return { sure: meant };
}
