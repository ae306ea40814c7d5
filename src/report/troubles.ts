import { causeName, percent } from '../conversation/trouble/in-words.ts';
import { fill } from '../conversation/wording.ts';
import type { TroubleTold } from '../review/story.ts';
import { placeOf, type Told } from './naming.ts';
import { type Entry, type Section, whenColumns } from './section.ts';

const mostNamed = 3;

function cureOf({ book, story }: Told, id: string): string {
  const cause = book.diagnosis?.causes.find((one) => one.id === id);
  return cause ? ` Cure: ${fill(book, story.state, cause.cure)}` : '';
}

function outcomeOf(told: Told, { outcome }: TroubleTold): Pick<Entry, 'value' | 'says'> {
  const [first] = outcome?.causes ?? [];
  if (!outcome || !first) return { value: 'taken as an alarm, or left before a cause was weighed' };
  const named = outcome.causes
    .slice(0, mostNamed)
    .map(({ id, probability }) => `${causeName(told.book.diagnosis, id)} (${percent(probability)})`);
  const sure = outcome.settled ? 'Sure enough to act on.' : 'Not settled when it was left.';
  return { value: `most likely ${named.join(', then ')}`, says: sure + cureOf(told, first.id) };
}

export function troubleSection(told: Told): Section {
  return {
    id: 'troubles',
    title: 'Troubles',
    caption: 'What the maker reported as wrong, and what was thought of it',
    columns: [
      { field: 'item', head: 'Reported' },
      { field: 'value', head: 'Outcome' },
      { field: 'says', head: 'More' },
      ...whenColumns,
    ],
    entries: told.story.troubles.map((trouble) => ({
      item: trouble.text,
      ...outcomeOf(told, trouble),
      ...placeOf(trouble),
    })),
    none: 'No trouble was reported.',
  };
}

export function noteSection({ story }: Told): Section {
  return {
    id: 'notes',
    title: "The maker's notes",
    caption: 'Notes that the maker made beside the questions',
    columns: [{ field: 'item', head: 'Note' }, ...whenColumns],
    entries: story.notes.map((note) => ({ item: note.text, value: '', ...placeOf(note) })),
    none: 'No note was made.',
  };
}
