import type { Diagnosis, Finding } from './diagnosis-schema.ts';
import type { Question } from './rule-schema.ts';

const prefix = 'check:';

/** The choice by which a maker says that a check makes no sense here; it shuts the check's gate. */
export const doesNotApply = 'does-not-apply';

/** What the talk itself asks in a trouble. No rule file can write these ids, so they are never mixed up with its own. */
export const troubleAsks = {
  stage: 'trouble:stage',
  words: 'trouble:words',
  complaint: 'trouble:complaint',
  right: 'trouble:right',
  next: 'trouble:next',
} as const;

/** The id of a check's question. */
export function checkQuestionId(finding: string): string {
  return prefix + finding;
}

/** The finding that a question asks about, where it is a check of a trouble. */
export function findingAsked(question: string): string | undefined {
  return question.startsWith(prefix) ? question.slice(prefix.length) : undefined;
}

const spoken = ({ say, also }: { say: string; also?: string[] | undefined }) =>
  also ? { say, also } : { say };

function checkQuestion(finding: Finding): Question {
  const choices = Object.entries(finding.choices).map(([id, choice]) => [id, spoken(choice)] as const);
  const none = [
    doesNotApply,
    { say: 'does not apply here', also: ['not applicable', 'not so here', 'did not do that'] },
  ];
  const choice = Object.fromEntries(finding.gate === undefined ? choices : [...choices, none]);
  const { ask, short, how, bands } = finding;
  return {
    id: checkQuestionId(finding.id),
    ask,
    ...(short ? { short } : {}),
    how,
    answer: { choice },
    ...(bands ? { bands } : {}),
    purpose: 'record',
  };
}

/** The questions of the diagnosis, in the shape of every other question, so that they are asked and read alike. */
export function troubleQuestions({ findings, complaints, weighing, talk }: Diagnosis): Question[] {
  const choiceOf = (things: readonly { id: string; say: string; also?: string[] | undefined }[]) => ({
    choice: Object.fromEntries(things.map((thing) => [thing.id, spoken(thing)])),
  });
  const question = (part: keyof typeof troubleAsks, answer: Question['answer']): Question => ({
    id: troubleAsks[part],
    ...talk[part],
    answer,
    purpose: 'record',
  });
  return [
    question('stage', choiceOf(weighing.stages)),
    question('words', { text: true }),
    question('complaint', choiceOf(complaints)),
    question('right', { 'yes-no': { yes: 'that is it', no: 'not so, ask me' } }),
    question('next', {
      choice: {
        cure: { say: 'go to the stage where the cure begins', also: ['cure', 'go there', 'take me there'] },
        stay: {
          say: 'go on where we were',
          also: ['go on', 'stay', 'back to the batch', 'carry on', 'done'],
        },
        more: {
          say: 'it is not that: look further',
          also: ['more', 'further', 'look further', 'not that', 'wrong'],
        },
      },
    }),
    ...findings.map(checkQuestion),
  ];
}
