import type { Book, Stage } from './book.ts';
import { checkReferences } from './check-references.ts';
import { addDiagnosisFile, joinDiagnosis } from './load-diagnosis.ts';
import { addReviewFile, checkReview } from './load-review.ts';
import type { Loading } from './loading.ts';
import { place } from './place.ts';
import { RuleFileError } from './rule-file-error.ts';
import {
  type Decisions,
  decisionFileSchema,
  flowFileSchema,
  hazardFileSchema,
  limitFileSchema,
  type Question,
  type StageText,
  sourceFileSchema,
  stageSchema,
  wordsFileSchema,
} from './rule-schema.ts';
import { type RuleFile, RuleText } from './rule-text.ts';

function addQuestion(
  loading: Loading,
  question: Question,
  file: RuleText,
  path: readonly PropertyKey[],
): void {
  if (place(loading, 'question', question.id, file, path)) loading.book.questions[question.id] = question;
}

function addStage(loading: Loading, text: StageText, file: RuleText): void {
  if (!place(loading, 'stage', text.stage, file, ['stage'])) return;
  const asks = text.questions.map((entry, index) => {
    if ('use' in entry) return entry.use;
    addQuestion(loading, entry, file, ['questions', index]);
    return entry.id;
  });
  for (const [index, advice] of text.advice.entries())
    place(loading, 'advice', advice.id, file, ['advice', index]);
  for (const [index, computation] of (text.compute ?? []).entries()) {
    const facts = 'formula' in computation ? [computation.fact] : Object.keys(computation.gives);
    for (const fact of facts) place(loading, 'computed fact', fact, file, ['compute', index]);
    loading.book.computations.push(computation);
  }
  const { questions: _questions, compute: _compute, ...rest } = text;
  loading.book.stages.push({ ...rest, asks });
}

function addHazards(loading: Loading, file: RuleText): void {
  const text = file.read(hazardFileSchema);
  for (const [index, question] of (text?.questions ?? []).entries()) {
    addQuestion(loading, question, file, ['questions', index]);
  }
  text?.hazards?.forEach((hazard, index) => {
    if (place(loading, 'stop', hazard.id, file, ['hazards', index])) loading.book.hazards.push(hazard);
  });
}

function addLimits(loading: Loading, file: RuleText): void {
  file.read(limitFileSchema)?.limits.forEach((limit, index) => {
    if (place(loading, 'limit', limit.id, file, ['limits', index])) loading.book.limits[limit.id] = limit;
  });
}

function addFile(loading: Loading, file: RuleText): void {
  if (file.path.startsWith('stages/')) {
    const text = file.read(stageSchema);
    if (text) addStage(loading, text, file);
  } else if (file.path.startsWith('decisions/')) {
    const rows = file.read(decisionFileSchema);
    if (rows) loading.decisions.push(rows);
  } else if (file.path.startsWith('hazards/')) addHazards(loading, file);
  else if (file.path.startsWith('diagnosis/')) addDiagnosisFile(loading, file);
  else if (file.path.startsWith('review/')) addReviewFile(loading, file);
  else if (file.path.startsWith('limits/')) addLimits(loading, file);
  else if (file.path === 'flow.yaml') loading.order = file.read(flowFileSchema)?.stages ?? [];
  else if (file.path === 'words.yaml') loading.book.words = file.read(wordsFileSchema)?.words ?? [];
  else if (file.path === 'sources.yaml') {
    file.read(sourceFileSchema)?.sources.forEach((source, index) => {
      if (place(loading, 'source', source.id, file, ['sources', index]))
        loading.book.sources[source.id] = source;
    });
  } else {
    loading.mistakes.push({ file: file.path, says: 'no rule file of this name or folder is known' });
  }
  loading.mistakes.push(...file.mistakes);
}

/** A stop's questions come before the stage's own, unless the stage file places them itself. */
function askHazardsFirst(book: Book): void {
  for (const stage of book.stages) {
    const needed = book.hazards
      .filter((hazard) => hazard.stages !== 'any' && hazard.stages.includes(stage.stage))
      .flatMap((hazard) => hazard.asks ?? []);
    const missing = [...new Set(needed)].filter((question) => !stage.asks.includes(question));
    stage.asks = [...missing, ...stage.asks];
  }
}

function inOrder(loading: Loading): Stage[] {
  const rank = (stage: Stage) => loading.order.indexOf(stage.stage);
  return [...loading.book.stages].sort((one, other) => rank(one) - rank(other));
}

export function isCaseFile(path: string): boolean {
  return path.endsWith('.cases.yaml');
}

/**
 * Checks rule texts and joins them into one book. It opens no file.
 * @param files  every file under rules/, `path` relative to it; example cases are passed over
 * @param hash   SHA-256 of the texts, kept in the book
 * @throws RuleFileError  listing every mistake with file, line and field
 */
export function loadRules(files: readonly RuleFile[], hash: string): { book: Book; decisions: Decisions[] } {
  const loading: Loading = {
    book: {
      stages: [],
      questions: {},
      computations: [],
      hazards: [],
      limits: {},
      sources: {},
      words: [],
      review: [],
      hash,
    },
    decisions: [],
    diagnosis: {},
    reviewFacts: [],
    order: [],
    written: new Map(),
    mistakes: [],
  };
  for (const file of files) if (!isCaseFile(file.path)) addFile(loading, new RuleText(file));
  loading.book.stages = inOrder(loading);
  askHazardsFirst(loading.book);
  if (loading.mistakes.length === 0) checkReferences(loading);
  if (loading.mistakes.length === 0) joinDiagnosis(loading);
  if (loading.mistakes.length === 0) checkReview(loading);
  if (loading.mistakes.length > 0) throw new RuleFileError(loading.mistakes);
  return { book: loading.book, decisions: loading.decisions };
}
