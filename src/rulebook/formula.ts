import {
  absDependencies,
  addDependencies,
  create,
  divideDependencies,
  expDependencies,
  logDependencies,
  type MathNode,
  maxDependencies,
  minDependencies,
  multiplyDependencies,
  parseDependencies,
  powDependencies,
  subtractDependencies,
  unaryMinusDependencies,
} from 'mathjs/number';

/** Only these names exist in a formula; `config` and its like stay out by the tree check below. */
const functions = new Set(['min', 'max', 'abs', 'exp', 'log']);
const arithmetic = new Set(['+', '-', '*', '/', '^']);
const maxLength = 500;
const maxNodes = 200;

const math = create({
  ...parseDependencies,
  ...addDependencies,
  ...subtractDependencies,
  ...multiplyDependencies,
  ...divideDependencies,
  ...powDependencies,
  ...unaryMinusDependencies,
  ...minDependencies,
  ...maxDependencies,
  ...absDependencies,
  ...expDependencies,
  ...logDependencies,
});

export class FormulaError extends Error {
  override name = 'FormulaError';
}

function refuse(formula: string, why: string): never {
  throw new FormulaError(`the formula "${formula}" ${why}`);
}

interface Inspected extends MathNode {
  name?: string;
  op?: string;
  implicit?: boolean;
  value?: unknown;
  fn?: MathNode & { name?: string };
}

function checkNode(node: Inspected, path: string, formula: string, symbols: ReadonlySet<string>): void {
  switch (node.type) {
    case 'ConstantNode':
      if (typeof node.value !== 'number') refuse(formula, 'may hold numbers only');
      return;
    case 'ParenthesisNode':
      return;
    case 'SymbolNode':
      if (path === 'fn') return;
      if (!symbols.has(node.name ?? ''))
        refuse(formula, `uses "${node.name}", which its "with" does not name`);
      return;
    case 'OperatorNode':
      if (node.implicit) refuse(formula, 'leaves a multiplication sign out');
      if (!arithmetic.has(node.op ?? '')) refuse(formula, `uses "${node.op}"; + - * / ^ are allowed`);
      return;
    case 'FunctionNode':
      if (!functions.has(node.fn?.name ?? ''))
        refuse(formula, `calls "${node.fn?.name}"; min, max, abs, exp and log are allowed`);
      return;
    default:
      refuse(formula, `holds a ${node.type}, which formulas do not have`);
  }
}

export type CompiledFormula = (values: Readonly<Record<string, number>>) => number;

/**
 * Compiles a formula from a rule file after checking every node of it against a short list.
 * @param formula  arithmetic on the named symbols, at most 500 characters
 * @param symbols  the names that its `with` binds
 * @throws FormulaError  on anything else, and at run time on a result that is no finite number
 */
export function compileFormula(formula: string, symbols: readonly string[]): CompiledFormula {
  if (formula.length > maxLength) refuse(formula.slice(0, 40), `is longer than ${maxLength} characters`);
  let tree: MathNode;
  try {
    tree = math.parse(formula);
  } catch (error) {
    refuse(formula, `does not parse: ${(error as Error).message}`);
  }
  const known = new Set(symbols);
  let nodes = 0;
  tree.traverse((node, path) => {
    nodes += 1;
    if (nodes > maxNodes) refuse(formula, `has more than ${maxNodes} parts`);
    checkNode(node as Inspected, path, formula, known);
  });
  const compiled = tree.compile();
  return (values) => {
    const result: unknown = compiled.evaluate(new Map(Object.entries(values)));
    if (typeof result !== 'number' || !Number.isFinite(result)) refuse(formula, 'gives no finite number');
    return result;
  };
}
