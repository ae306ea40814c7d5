import type { Finding } from '../review/findings.ts';
import { verdictWords } from '../review/review-questions.ts';
import { answered, askedIn, placeOf, sourceIds, type Told } from './naming.ts';
import { type Entry, type Section, whenColumns } from './section.ts';
import { mentorAt, reviewEvents, signOff } from './sign-off.ts';

function findingEntry({ story }: Told, finding: Finding): Entry {
  const { check, name, signal, fix, says, because, source, around } = finding;
  const seen = reviewEvents(story, 'CheckSeen').some(({ event }) => event.check === check);
  const records = around.filter(({ stands }) => stands).map(({ record }) => record);
  const where =
    records.length > 0 ? ` See record${records.length > 1 ? 's' : ''} ${records.join(', ')}.` : '';
  const [first] = around;
  return {
    group: 'What the checks find',
    item: `${check} ${name.replaceAll('-', ' ')}`,
    value: fix ? `${signal}; put right before the numbers are used` : signal,
    says: `${says} ${because}${where}`,
    verdict: seen ? 'seen by the mentor' : 'not looked at yet',
    sources: sourceIds(source),
    ...(first ? placeOf(first) : {}),
  };
}

/** What a comment is about, in words. */
function aboutOf(
  told: Told,
  { record, check }: { record?: number | undefined; check?: string | undefined },
): string {
  if (check !== undefined) return `Check ${check}`;
  if (record === undefined) return 'The batch as a whole';
  const answer = told.story.answers.find((one) => one.record === record);
  return answer
    ? `Record ${record}: ${askedIn(told, answer.question)} ${answered(told, answer.question, answer.answer)}`
    : `Record ${record}`;
}

function comments(told: Told): Entry[] {
  return reviewEvents(told.story, 'CommentMade').map(({ event, ...place }) => ({
    group: 'Comments',
    item: aboutOf(told, event),
    value: `by ${mentorAt(told.story, place.record)}`,
    says: event.text,
    ...placeOf(place),
  }));
}

function signed({ story }: Told): Entry[] {
  const sign = signOff(story);
  if (!sign) return [];
  const { mentor, verdict, well, change, found } = sign.event;
  const group = 'Sign-off';
  return [
    { group, item: 'Verdict', value: verdictWords[verdict], says: `Signed by ${mentor}.`, ...placeOf(sign) },
    { group, item: 'Done well', value: '', says: well, ...placeOf(sign) },
    { group, item: 'To change', value: '', says: change, ...placeOf(sign) },
    { group, item: 'Checks that spoke then', value: found.join(', ') || 'none', ...placeOf(sign) },
  ];
}

export function reviewSection(told: Told, findings: readonly Finding[]): Section {
  return {
    id: 'review',
    title: "The mentor's review",
    caption: 'Findings of the checks, comments and the sign-off',
    lead: 'The checks are those of the rules that this report was made with. They point a mentor at places in the log; they judge nobody.',
    columns: [
      { field: 'item', head: 'About' },
      { field: 'value', head: 'What' },
      { field: 'says', head: 'In words' },
      { field: 'verdict', head: 'State' },
      { field: 'sources', head: 'Source' },
      ...whenColumns,
    ],
    entries: [...findings.map((finding) => findingEntry(told, finding)), ...comments(told), ...signed(told)],
    none: 'The checks find nothing, and no mentor has commented or signed.',
  };
}
