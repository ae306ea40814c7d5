import { parseArgs } from 'node:util';

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
  batchside trouble         find out what went wrong in the batch under way; --new: in another fuel, by itself
    --describe "TEXT"       what a description points to; asks nothing (--json)
    --finding CHECK=CHOICE  an answer that is known already, as often as needed
    --stage STAGE  --log FILE   where it showed; what the log of the batch already says
  batchside replay LOG      a logged batch again on the same screen; nothing is written (--plain: all as text)
  batchside audit LOG       where today's rules, or those of --rules DIR, would differ (--json); exit code 1 if any
  batchside verify LOG|DIR  check that journals are as they were written (--json)
    --head FINGERPRINT      some line of LOG must have this fingerprint
  batchside review LOG      a mentor walks through what the checks find, comments and signs (--json: only lists)
  batchside review DIR      one row a batch, and how the batches change (--json)
    --findings              count what the checks of a review find too; slower
  batchside report LOG --to FILE.html   the batch as a page; FILE.md or FILE.csv as text or table
    --over                  write over FILE if it is there already
  batchside understand QUESTION "TEXT"   how a typed answer would be taken, for rule authors
    --json                  the result as JSON
  --help, --version
`;

type Values = Record<string, string | boolean | string[] | undefined>;

/** Those of the named options that were given as text. */
function texts<Name extends string>(values: Values, ...names: Name[]): { [N in Name]?: string } {
  const given = names.flatMap((name) => (typeof values[name] === 'string' ? [[name, values[name]]] : []));
  return Object.fromEntries(given) as { [N in Name]?: string };
}

const isSet = (values: Values, name: string): boolean => values[name] === true;

async function talk(values: Values, trouble: boolean): Promise<number> {
  const options = texts(values, 'answers', 'logs', 'rules', 'batch', 'start');
  const { talk: run } = await import('./commands/talk.ts');
  return run({ ...options, plain: isSet(values, 'plain'), fresh: isSet(values, 'new'), trouble });
}

/** Each command takes the words after its name, and the options. */
const commands: Record<string, (words: string[], values: Values) => Promise<number>> = {
  calc: async (words, values) => {
    const { calc } = await import('./commands/calc.ts');
    return calc(words, isSet(values, 'json'));
  },
  trouble: async (_words, values) => {
    const { describe, finding } = values;
    if (typeof describe !== 'string') return talk(values, true);
    const findings = Array.isArray(finding) ? finding : [];
    const options = texts(values, 'stage', 'log', 'rules');
    const { trouble } = await import('./commands/trouble.ts');
    return trouble({ ...options, describe, findings, json: isSet(values, 'json') });
  },
  replay: async ([log], values) => {
    const { replay } = await import('./commands/replay.ts');
    return replay({ ...texts(values, 'rules'), log, plain: isSet(values, 'plain') });
  },
  audit: async ([log], values) => {
    const { audit } = await import('./commands/audit.ts');
    return audit({ ...texts(values, 'rules'), log, json: isSet(values, 'json') });
  },
  review: async (words, values) => {
    const { review } = await import('./commands/review.ts');
    return review(words, {
      ...texts(values, 'rules'),
      plain: isSet(values, 'plain'),
      json: isSet(values, 'json'),
      findings: isSet(values, 'findings'),
    });
  },
  report: async ([log], values) => {
    const { report } = await import('./commands/report.ts');
    const { to, ...options } = texts(values, 'to', 'rules');
    return report({ ...options, log, to, over: isSet(values, 'over') });
  },
  verify: async (words, values) => {
    const { verify } = await import('./commands/verify.ts');
    return verify(words, { ...texts(values, 'head', 'rules'), json: isSet(values, 'json') });
  },
  understand: async (words, values) => {
    const { understand } = await import('./commands/understand.ts');
    return understand(words, { ...texts(values, 'rules'), json: isSet(values, 'json') });
  },
};

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
  if (values.version) {
    const { program } = await import('./commands/program.ts');
    process.stdout.write(`${program}\n`);
    return 0;
  }
  const [command, ...words] = positionals;
  if (command === undefined) return talk(values, false);
  const found = Object.hasOwn(commands, command) ? commands[command] : undefined;
  if (found) return found(words, values);
  process.stderr.write(`There is no command "${command}".\n\n${usage}`);
  return 2;
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
