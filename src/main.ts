import { parseArgs } from 'node:util';
import type { ReportOptions } from './commands/report.ts';
import type { ReviewOptions } from './commands/review.ts';
import type { TalkOptions } from './commands/talk.ts';
import type { TroubleOptions } from './commands/trouble.ts';
import type { VerifyOptions } from './commands/verify.ts';

const usage = `batchside: a voice beside the tank

  batchside                 talk the newest unfinished batch through, or begin a new one
    --new                   begin another batch
    --batch NAME            go on with this batch
    --plain                 lines of text instead of a screen (pipes, screen readers)
    --answers FILE          answer from a YAML file (question id: answer, or a list of answers)
    --start TIME            the clock that --answers begins with, like 2026-03-02T08:00:00Z
    --logs DIR              keep the journals in this folder
    --rules DIR             use the rules in this folder
  batchside calc NAME key=value ...   one calculation from the shell (calc alone lists them)
  batchside trouble         find out what went wrong: in the batch under way, or by itself
    --describe "TEXT"       what a description points to; asks nothing (--json)
    --finding CHECK=CHOICE  an answer that is known already, as often as needed
    --stage STAGE  --log FILE   where it showed; what the log of the batch already says
  batchside verify LOG|DIR  check that journals are as they were written (--json)
    --head FINGERPRINT      some line of LOG must have this fingerprint
  batchside review LOG      a mentor walks through what the checks find, comments and signs (--json: only lists)
  batchside review DIR      one row a batch, and how the batches change (--json)
    --findings              count what the checks of a review find too; slower
  batchside replay LOG      a logged batch again on the same screen; nothing is written (--plain: all as text)
  batchside audit LOG       where today's rules, or those of --rules DIR, would differ (--json); exit code 1 if any
  batchside report LOG --to FILE.html   the batch as a page; FILE.md or FILE.csv as text or table
    --over                  write over FILE if it is there already
  batchside understand QUESTION "TEXT"   how a typed answer would be taken, for rule authors
    --json                  the result as JSON
  --help, --version
`;

function optionsOf(values: Values): TalkOptions {
  const options: TalkOptions = { plain: values.plain === true, fresh: values.new === true };
  for (const name of ['answers', 'logs', 'rules', 'batch', 'start'] as const) {
    const value = values[name];
    if (typeof value === 'string') options[name] = value;
  }
  return options;
}

type Values = Record<string, string | boolean | string[] | undefined>;

function troubleOptionsOf(values: Values, describe: string): TroubleOptions {
  const findings = Array.isArray(values.finding) ? values.finding : [];
  const options: TroubleOptions = { describe, findings, json: values.json === true };
  for (const name of ['stage', 'log', 'rules'] as const) {
    const value = values[name];
    if (typeof value === 'string') options[name] = value;
  }
  return options;
}

function verifyOptionsOf(values: Values): VerifyOptions {
  const options: VerifyOptions = { json: values.json === true };
  if (typeof values.head === 'string') options.head = values.head;
  if (typeof values.rules === 'string') options.rules = values.rules;
  return options;
}

function reportOptionsOf({ to, over, rules }: Values, [log]: string[]): ReportOptions {
  const options: ReportOptions = { log, to: typeof to === 'string' ? to : undefined, over: over === true };
  if (typeof rules === 'string') options.rules = rules;
  return options;
}

function reviewOptionsOf(values: Values): ReviewOptions {
  const options: ReviewOptions = {
    plain: values.plain === true,
    json: values.json === true,
    findings: values.findings === true,
  };
  if (typeof values.rules === 'string') options.rules = values.rules;
  return options;
}

async function run(): Promise<number> {
  const { values, positionals } = parseArgs({
    // A true minus sign: "-5 C" is an answer, not an option.
    args: process.argv.slice(2).map((arg) => arg.replace(/^-(?=\d)/, '\u2212')),
    allowPositionals: true,
    options: {
      plain: { type: 'boolean' },
      new: { type: 'boolean' },
      answers: { type: 'string' },
      logs: { type: 'string' },
      rules: { type: 'string' },
      batch: { type: 'string' },
      start: { type: 'string' },
      json: { type: 'boolean' },
      describe: { type: 'string' },
      finding: { type: 'string', multiple: true },
      stage: { type: 'string' },
      log: { type: 'string' },
      to: { type: 'string' },
      over: { type: 'boolean' },
      head: { type: 'string' },
      findings: { type: 'boolean' },
      help: { type: 'boolean', short: 'h' },
      version: { type: 'boolean', short: 'v' },
    },
  });
  if (values.help) {
    process.stdout.write(usage);
    return 0;
  }
  const [{ talk }, { program }] = await Promise.all([
    import('./commands/talk.ts'),
    import('./commands/program.ts'),
  ]);
  if (values.version) {
    process.stdout.write(`${program}\n`);
    return 0;
  }
  const [command, ...words] = positionals;
  if (command === 'calc') {
    const { calc } = await import('./commands/calc.ts');
    return calc(words, values.json === true);
  }
  if (command === 'trouble') {
    if (typeof values.describe !== 'string') return talk({ ...optionsOf(values), trouble: true });
    const { trouble } = await import('./commands/trouble.ts');
    return trouble(troubleOptionsOf(values, values.describe));
  }
  if (command === 'verify') {
    const { verify } = await import('./commands/verify.ts');
    return verify(words, verifyOptionsOf(values));
  }
  if (command === 'review') {
    const { review } = await import('./commands/review.ts');
    return review(words, reviewOptionsOf(values));
  }
  if (command === 'replay' || command === 'audit') {
    const [log] = words;
    const rules = typeof values.rules === 'string' ? { rules: values.rules } : {};
    if (command === 'replay') {
      const { replay } = await import('./commands/replay.ts');
      return replay({ log, plain: values.plain === true, ...rules });
    }
    const { audit } = await import('./commands/audit.ts');
    return audit({ log, json: values.json === true, ...rules });
  }
  if (command === 'report') {
    const { report } = await import('./commands/report.ts');
    return report(reportOptionsOf(values, words));
  }
  if (command === 'understand') {
    const { understand } = await import('./commands/understand.ts');
    const rules = typeof values.rules === 'string' ? { rules: values.rules } : {};
    return understand(words, { json: values.json === true, ...rules });
  }
  if (command !== undefined) {
    process.stderr.write(`There is no command "${command}".\n\n${usage}`);
    return 2;
  }
  return talk(optionsOf(values));
}

process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code === 'EPIPE') process.exit(0);
  throw error;
});

try {
  process.exitCode = await run();
} catch (error) {
  const { name, message, code } = error as Error & { code?: string };
  const known =
    ['UsageError', 'JournalError', 'RuleFileError'].includes(name) || code?.startsWith('ERR_PARSE_ARGS');
  if (!known) throw error;
  process.stderr.write(`${message}\n`);
  process.exitCode = 2;
}
