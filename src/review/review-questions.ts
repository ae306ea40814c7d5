import type { ReviewVerdict } from '../conversation/events.ts';
import type { Question } from '../rulebook/rule-schema.ts';

/** A review goes through no stages and waits for nothing. */
export const noStage = {
  stage: '',
  step: 1,
  steps: 1,
  answered: 0,
  asks: 0,
  held: [],
  busy: false,
  paused: false,
};

type Part = 'mentor' | 'finding' | 'comment' | 'verdict' | 'well' | 'change' | 'sign';

/** What each verdict says, for the mentor and for the learner. */
export const verdictWords: Record<ReviewVerdict, string> = {
  'repeat-with-someone': 'do the same again with somebody beside you',
  'alone-with-this': 'go on alone, minding what is written here',
  ready: 'ready to go on alone',
};

const question = (part: Part, ask: string, how: string, answer: Question['answer']): Question => ({
  id: `review:${part}`,
  ask,
  how,
  answer,
  purpose: 'record',
});

/** What a review asks its mentor; in the shape of every other question, so that answers are read alike. */
export const reviewQuestions: Record<Part, Question> = {
  mentor: question('mentor', 'Who reviews?', 'A name the learner knows. It goes into the log.', {
    text: true,
  }),
  finding: question(
    'finding',
    'What about this one?',
    'Seen means that you looked at it. A comment goes to the learner with the finding.',
    {
      choice: {
        seen: { say: 'seen, go on', also: ['seen', 'ok', 'go on', 'fine', 'yes'] },
        comment: {
          say: 'say something about it to the learner',
          also: ['comment', 'say something', 'write'],
        },
        around: { say: 'show what was said around it', also: ['around', 'show', 'more'] },
        why: { say: 'why the check fired', also: ['why', 'how'] },
        back: { say: 'the finding before', also: ['back', 'before'] },
        verdict: { say: 'leave the rest, to the verdict', also: ['verdict', 'leave the rest'] },
      },
    },
  ),
  comment: question('comment', 'What do you tell the learner?', 'One or two sentences, kind and exact.', {
    text: true,
  }),
  verdict: question('verdict', 'What is your verdict?', 'Judge what was done, not who did it.', {
    choice: {
      'repeat-with-someone': {
        say: verdictWords['repeat-with-someone'],
        also: ['repeat', 'again', 'with someone', 'repeat with someone'],
      },
      'alone-with-this': {
        say: verdictWords['alone-with-this'],
        also: ['alone', 'alone with this', 'go on alone'],
      },
      ready: { say: verdictWords.ready, also: ['ready'] },
    },
  }),
  well: question(
    'well',
    'One thing that was done well?',
    'Something measured or decided well in this batch.',
    {
      text: true,
    },
  ),
  change: question(
    'change',
    'One thing to change next time?',
    'The one that matters most for the next batch.',
    {
      text: true,
    },
  ),
  sign: question(
    'sign',
    'Sign it so?',
    'Signed, it is appended to the log and the learner sees it at the next start.',
    {
      'yes-no': { yes: 'sign', no: 'not yet' },
    },
  ),
};
