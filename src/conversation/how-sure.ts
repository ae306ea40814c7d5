import { bothSystems, showQuantity } from '../quantity/show.ts';
import type { Book } from '../rulebook/book.ts';
import { nameOfFact } from '../rulebook/explain.ts';
import type { State } from './state.ts';
import { closest } from './understanding/match-words.ts';
import { answerInWords } from './wording.ts';

/** What an input of a figure is and how well it is known. */
function inputInWords(book: Book, state: State, fact: string): string {
  const figure = state.figures[fact];
  if (figure)
    return `${nameOfFact(book, fact)}: ${bothSystems(figure.value, figure.unit, { plusMinus: figure.plusMinus })}`;
  const question = book.questions[fact];
  const answered = state.answers[fact];
  if (!question || !answered) return nameOfFact(book, fact);
  return `${question.short ?? question.ask} ${answerInWords(question, answered.answer)}`;
}

/** From a figure down to the measurement behind most of its ±. */
function behind(state: State, fact: string): string[] {
  const path: string[] = [];
  for (let at = state.figures[fact]?.biggest; at && !path.includes(at); at = state.figures[at]?.biggest) {
    path.push(at);
  }
  return path;
}

function sureOf(book: Book, state: State, fact: string): string {
  const figure = state.figures[fact];
  const name = nameOfFact(book, fact);
  if (!figure) return `I have no figure for ${name} yet.`;
  const shown = bothSystems(figure.value, figure.unit, { plusMinus: figure.plusMinus });
  if (figure.plusMinus === 0) return `${name}: ${shown}. It is set, not measured, so it has no ±.`;
  const share = Math.abs(figure.value) > 0 ? Math.abs(figure.plusMinus / figure.value) * 100 : 0;
  const relative = share > 0 ? `, that is ${showQuantity(share, '%', { digits: 2 })} of it` : '';
  const path = behind(state, fact).map((one) => inputInWords(book, state, one));
  const most = path.length > 0 ? ` Most of the ± comes from ${path.join(', and there from ')}.` : '';
  return `${name}: ${shown}${relative}.${most}`;
}

/** The figure that is meant, by its id or by what it is. */
export function figureNamed(book: Book, state: State, about: string): string | undefined {
  const known = Object.keys(state.figures);
  return closest(
    about,
    known.map((id) => ({ id, words: [id.replaceAll('-', ' '), nameOfFact(book, id)] })),
  );
}

/** The figure asked about, else the last told; those told together share one line each. */
export function howSure(book: Book, state: State, about: string | undefined): string {
  const named = about === undefined ? undefined : figureNamed(book, state, about);
  if (named) return sureOf(book, state, named);
  if (about) return `I have no figure called "${about}" yet. Say how sure alone for the last one.`;
  const told = book.computations.filter((one) => one.say !== undefined);
  const last = state.lastFigures.filter((fact) => fact in state.figures);
  const spoken = last.filter((fact) =>
    told.some((one) => ('fact' in one ? one.fact === fact : fact in one.gives)),
  );
  const measured = (spoken.length > 0 ? spoken : last).filter(
    (fact) => (state.figures[fact]?.plusMinus ?? 0) > 0,
  );
  const facts = measured.slice(-3);
  if (facts.length === 0) return 'I have not worked anything out yet.';
  return facts.map((fact) => sureOf(book, state, fact)).join('\n');
}
