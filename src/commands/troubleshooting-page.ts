import { emptyState } from '../conversation/state.ts';
import { fill } from '../conversation/wording.ts';
import type { Book } from '../rulebook/book.ts';
import type { Cause, Complaint, Diagnosis, Finding } from '../rulebook/diagnosis-schema.ts';
import { citeSource } from '../rulebook/explain.ts';

const opening = `# Troubleshooting

Made from the rule files; \`npm run docs\` makes it anew.

If something is dangerous now - fire, vapour, popping, foam, a bare heater, somebody hurt - heater off at the breaker,
everybody out, and only then read on. Local codes and licensed practice come before anything written here.

In a talk say "something is wrong" and what you see. By itself: \`batchside trouble\`. To see what a description
points to without being asked anything: \`batchside trouble --describe "the tank is cloudy" --stage store\`.

Batchside weighs the causes by Bayes' rule: how often each cause shows at that stage, how well it fits the complaint,
and how often it shows what you found. It then asks for the check that is expected to tell most for its minutes, its
money and its risk, uses what the log already knows, and stops when one cause has {settled} or when no check is worth
its cost. How often is judged in words (almost always, often, sometimes, rarely); these words are common practice and no
measured figures.
`;

const percent = (share: number) => `${Math.round(share * 100)} %`;

function complaintPart(diagnosis: Diagnosis, { say, also, core, possible }: Complaint): string {
  const link = (id: string) => `[${diagnosis.causes.find((cause) => cause.id === id)?.name ?? id}](#${id})`;
  return [
    `### ${say}`,
    '',
    `People also say: ${also.slice(0, 5).join('; ')}.`,
    '',
    `Usual causes: ${core.map(link).join(', ')}.`,
    ...(possible.length > 0 ? ['', `Also possible: ${possible.map(link).join(', ')}.`] : []),
  ].join('\n');
}

function shownBy(diagnosis: Diagnosis, cause: Cause): string[] {
  return Object.entries(cause.likely).map(([id, cells]) => {
    const finding = diagnosis.findings.find((one) => one.id === id);
    const choices = Object.entries(cells).map(
      ([choice, word]) => `${finding?.choices[choice]?.say ?? choice} (${word.replaceAll('-', ' ')})`,
    );
    return `- ${(finding?.short ?? finding?.ask ?? id).replace(/[?.:]$/, '')}: ${choices.join(', ')}`;
  });
}

function causePart(book: Book, diagnosis: Diagnosis, cause: Cause): string {
  return [
    `<a id="${cause.id}"></a>`,
    '',
    `### ${cause.name}`,
    '',
    `${cause.say} ${cause.because}`,
    '',
    `**Proof.** ${cause.proof}`,
    '',
    `**Cure.** ${cause.cure}`,
    ...(cause.dose
      ? ['', `**Doses.** Worked out for the batch where its log has the figures. Else: ${cause.dose.else}`]
      : []),
    '',
    `**Left alone.** ${cause.danger}`,
    '',
    `**Next time.** ${cause.prevent}`,
    '',
    `**For the log.** ${cause.log}`,
    '',
    'What it shows:',
    ...shownBy(diagnosis, cause),
    '',
    `Source: ${citeSource(book, cause.source)}.`,
  ].join('\n');
}

function checkPart({ ask, how, minutes, money, caution, choices }: Finding): string {
  const cost = `${minutes} min${money > 0 ? `, about ${money} US dollars` : ''}`;
  return [
    `#### ${ask}`,
    '',
    `${how} (${cost})`,
    ...(caution ? ['', `**${caution.signal}**: ${caution.say}`] : []),
    '',
    Object.values(choices)
      .map(({ say, share }) => `${say} (${percent(share)})`)
      .join(' / '),
  ].join('\n');
}

/**
 * The page about troubles: every complaint, cause and check of the rules.
 * @param rates  Markdown tables of how well the checks are chosen
 */
export function troubleshootingPage(book: Book, rates: string): string {
  const { diagnosis } = book;
  if (!diagnosis) throw new Error('these rules have no causes of trouble');
  const inWords = (text: string) => fill(book, emptyState, text).replaceAll('\u00a0', ' ');
  return `${inWords(
    [
      opening.replace('{settled}', percent(diagnosis.weighing.settled)),
      '## What is not right?',
      ...diagnosis.complaints.map((complaint) => complaintPart(diagnosis, complaint)),
      '## Causes',
      ...diagnosis.causes.map((cause) => causePart(book, diagnosis, cause)),
      '## Checks',
      'With each answer its share among batches where the check makes sense: common practice, no source.',
      ...diagnosis.findings.map(checkPart),
      '## How well the checks are chosen',
      'Cases are drawn from these very tables, so this shows how the checks are chosen, not how true the tables are. ' +
        'Cost counts one for the asking, one for an hour of work, one for five dollars, and the risk.',
      rates,
    ].join('\n\n'),
  )}\n`;
}
