/**
 * Where a hand can slip on one line, and what it then writes: a list of edits of a source file, found in its syntax
 * tree. Comments, types, texts, the words of errors, imports and tables made by scripts are passed over: a fault there
 * changes no answer.
 */
import ts from "typescript";

export interface Fault {
  /** What kind of slip. */
  readonly slip: string;
  /** Offsets in the text of the file. */
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

const COMPARED: Partial<Record<ts.SyntaxKind, readonly [turned: string, edge: string]>> = {
  [ts.SyntaxKind.LessThanToken]: [">", "<="],
  [ts.SyntaxKind.LessThanEqualsToken]: [">=", "<"],
  [ts.SyntaxKind.GreaterThanToken]: ["<", ">="],
  [ts.SyntaxKind.GreaterThanEqualsToken]: ["<=", ">"],
  [ts.SyntaxKind.EqualsEqualsEqualsToken]: ["!==", "!=="],
  [ts.SyntaxKind.ExclamationEqualsEqualsToken]: ["===", "==="],
};

const ARITHMETIC: Partial<Record<ts.SyntaxKind, string>> = {
  [ts.SyntaxKind.PlusToken]: "-",
  [ts.SyntaxKind.MinusToken]: "+",
  [ts.SyntaxKind.AsteriskToken]: "/",
  [ts.SyntaxKind.SlashToken]: "*",
  [ts.SyntaxKind.AsteriskAsteriskToken]: "*",
  [ts.SyntaxKind.PercentToken]: "/",
  [ts.SyntaxKind.PlusEqualsToken]: "-=",
  [ts.SyntaxKind.MinusEqualsToken]: "+=",
  [ts.SyntaxKind.AsteriskEqualsToken]: "/=",
  [ts.SyntaxKind.SlashEqualsToken]: "*=",
};

/** Functions taken for each other. */
const TWINS: Readonly<Record<string, string>> = {
  sin: "cos",
  cos: "sin",
  tan: "sin",
  sinh: "cosh",
  cosh: "sinh",
  asin: "acos",
  acos: "asin",
  min: "max",
  max: "min",
  floor: "ceil",
  ceil: "floor",
  round: "floor",
  exp: "log",
  log: "log10",
  every: "some",
  some: "every",
};

/** Functions that a hurried hand leaves away, their argument standing alone. */
const LEFT_OUT =
  /^(abs|sqrt|hypot|square|exp|log|sin|cos|tan|atan)$|rad|deg|newton|metre|unit|^si$|^to[A-Z]|^from[A-Z]/i;

/** A smaller number than this is a tolerance or a step: its tenth tells nothing a test should hold. */
const TINY = 1e-5;

/** Calls whose arguments are words for people, or news of how far a work is. */
const WORDS = /^(InputError|NoAnswer|Error|TypeError|RangeError|progress|onProgress|log|warn|quoted|expected)$/;

/**
 * All the faults of a file.
 *
 * @param checker of the program the file belongs to: it knows what is a number and which fields are of one type
 */
export function faultsOf(file: ts.SourceFile, checker: ts.TypeChecker): Fault[] {
  const found: Fault[] = [];
  const source = file.text;
  const put = (slip: string, node: ts.Node, text: string): void => {
    const start = node.getStart(file);
    if (source.slice(start, node.end) !== text) found.push({ slip, start, end: node.end, text });
  };
  const said = (node: ts.Node): string => node.getText(file);
  const isNumber = (node: ts.Node): boolean =>
    (checker.getTypeAtLocation(node).flags & (ts.TypeFlags.NumberLike | ts.TypeFlags.BigIntLike)) !== 0;

  function ofBinary(node: ts.BinaryExpression): void {
    const { left, right, operatorToken: op } = node;
    const compared = COMPARED[op.kind];
    if (compared !== undefined) {
      put("comparison turned", op, compared[0]);
      if (isCount(left, file) || isCount(right, file)) put("edge of a range", op, compared[1]);
    }
    if (op.kind === ts.SyntaxKind.AmpersandAmpersandToken || op.kind === ts.SyntaxKind.BarBarToken) {
      put("and for or", op, op.kind === ts.SyntaxKind.BarBarToken ? "&&" : "||");
      put("condition left out", node, said(left));
      put("condition left out", node, said(right));
    }
    const other = ARITHMETIC[op.kind];
    if (other === undefined || !isNumber(left) || !isNumber(right)) return;
    const isSum = op.kind === ts.SyntaxKind.PlusToken || op.kind === ts.SyntaxKind.MinusToken;
    const isProduct = op.kind === ts.SyntaxKind.AsteriskToken || op.kind === ts.SyntaxKind.SlashToken;
    put(isSum ? "plus for minus" : isProduct ? "times for over" : "operator", op, other);
    if (isSum || isProduct) {
      put(isSum ? "term left out" : "factor left out", node, said(left));
      if (op.kind === ts.SyntaxKind.PlusToken || op.kind === ts.SyntaxKind.AsteriskToken)
        put(isSum ? "term left out" : "factor left out", node, said(right));
    }
    if (op.kind === ts.SyntaxKind.MinusToken || op.kind === ts.SyntaxKind.SlashToken)
      put("sides swapped", node, `${wrapped(right, file)} ${op.getText(file)} ${wrapped(left, file)}`);
    if (op.kind === ts.SyntaxKind.AsteriskAsteriskToken) put("power left out", node, said(left));
  }

  function ofNumber(node: ts.NumericLiteral): void {
    const value = Number(node.text);
    if (Math.abs(value) < TINY && value !== 0) return;
    if (ts.isElementAccessExpression(node.parent) && node.parent.argumentExpression === node) {
      put("index off by one", node, String(value + 1));
      if (value > 0) put("index off by one", node, String(value - 1));
    } else if (value === 0) put("constant", node, "1");
    else if (value === 1) put("constant", node, "2");
    else {
      for (const [text, times] of [
        ["ten times", 10],
        ["a tenth", 0.1],
        ["twice", 2],
        ["half", 0.5],
      ] as const)
        put(`constant ${text}`, node, String(Number((value * times).toPrecision(15))));
      if (Number.isInteger(value) && value < 20) put("constant", node, String(value + 1));
    }
  }

  function ofCall(node: ts.CallExpression): void {
    const called = node.expression;
    const name = ts.isPropertyAccessExpression(called) ? called.name : called;
    const text = said(name);
    const twin = Object.hasOwn(TWINS, text) ? TWINS[text] : undefined;
    if (twin !== undefined && ts.isPropertyAccessExpression(called)) put("function for its twin", name, twin);
    if (node.arguments.length === 1 && LEFT_OUT.test(text) && isNumber(node) && isNumber(node.arguments[0]!))
      put("conversion left out", node, `(${said(node.arguments[0]!)})`);
    if (ts.isPropertyAccessExpression(called) && /^(reverse|sort|toSorted|toReversed|trim|filter)$/.test(text))
      put("step left out", node, said(called.expression));
    for (let i = 0; i + 1 < node.arguments.length; i++) {
      const [a, b] = [node.arguments[i]!, node.arguments[i + 1]!];
      if (said(a) === said(b) || ts.isFunctionLike(a) || ts.isFunctionLike(b)) continue;
      if (/^(min|max|hypot|push|imul)$/.test(text)) continue;
      if (sameType(checker, checker.getTypeAtLocation(a), checker.getTypeAtLocation(b)))
        found.push({
          slip: "arguments swapped",
          start: a.getStart(file),
          end: b.end,
          text: `${said(b)}, ${said(a)}`,
        });
    }
  }

  function ofField(node: ts.PropertyAccessExpression): void {
    if (ts.isCallExpression(node.parent) && node.parent.expression === node) return;
    const owner = checker.getTypeAtLocation(node.expression);
    const own = checker.getTypeAtLocation(node);
    // Of a class or of the language itself (`length`, `Math.PI`) no sibling is meant.
    const fields = checker.getPropertiesOfType(checker.getNonNullableType(owner));
    const mine = fields.find((field) => field.name === node.name.text);
    if (mine?.declarations?.every((d) => !d.getSourceFile().isDeclarationFile) !== true) return;
    for (const field of fields) {
      if (field === mine || (field.flags & ts.SymbolFlags.Method) !== 0) continue;
      if (!sameType(checker, own, checker.getTypeOfSymbolAtLocation(field, node))) continue;
      put("wrong field", node.name, field.name);
    }
  }

  function ofStatement(node: ts.Statement): void {
    if (ts.isIfStatement(node)) {
      put("condition turned", node.expression, `!(${said(node.expression)})`);
      if (node.elseStatement === undefined && leaves(node.thenStatement)) put("guard left out", node, ";");
    }
    if (!ts.isExpressionStatement(node)) return;
    const act = node.expression;
    if (ts.isAwaitExpression(act)) {
      put("promise not awaited", act, `void ${said(act.expression)}`);
      put("statement left out", node, ";");
    } else if (ts.isCallExpression(act) && !WORDS.test(lastName(act.expression, file)))
      put("statement left out", node, ";");
    else if (ts.isBinaryExpression(act) && act.operatorToken.kind !== ts.SyntaxKind.EqualsToken)
      put("statement left out", node, ";");
  }

  function visit(node: ts.Node): void {
    if (isPassedOver(node, file)) return;
    if (ts.isBinaryExpression(node)) ofBinary(node);
    else if (ts.isNumericLiteral(node)) ofNumber(node);
    else if (ts.isCallExpression(node)) ofCall(node);
    else if (ts.isPropertyAccessExpression(node)) ofField(node);
    else if (ts.isPrefixUnaryExpression(node)) {
      if (node.operator === ts.SyntaxKind.MinusToken) put("sign", node, said(node.operand));
      if (node.operator === ts.SyntaxKind.ExclamationToken) put("not left out", node, said(node.operand));
    } else if (ts.isConditionalExpression(node)) put("condition turned", node.condition, `!(${said(node.condition)})`);
    else if (ts.isElementAccessExpression(node) && !ts.isNumericLiteral(node.argumentExpression)) {
      if (isNumber(node.argumentExpression)) {
        put("index off by one", node.argumentExpression, `${said(node.argumentExpression)} + 1`);
        put("index off by one", node.argumentExpression, `${said(node.argumentExpression)} - 1`);
      }
    } else if (node.kind === ts.SyntaxKind.TrueKeyword) put("true for false", node, "false");
    else if (node.kind === ts.SyntaxKind.FalseKeyword) put("true for false", node, "true");
    else if (ts.isStatement(node)) ofStatement(node);
    if ((ts.isReturnStatement(node) || ts.isVariableDeclaration(node)) && signed(node) && isNumber(signed(node)!))
      put("sign", signed(node)!, `-(${said(signed(node)!)})`);
    ts.forEachChild(node, visit);
  }
  visit(file);
  return found;
}

function signed(node: ts.ReturnStatement | ts.VariableDeclaration): ts.Expression | undefined {
  const value = ts.isReturnStatement(node) ? node.expression : node.initializer;
  return value !== undefined && (ts.isBinaryExpression(value) || ts.isCallExpression(value)) ? value : undefined;
}

function isPassedOver(node: ts.Node, file: ts.SourceFile): boolean {
  if (ts.isTypeNode(node) || ts.isImportDeclaration(node) || ts.isExportDeclaration(node)) return true;
  if (ts.isInterfaceDeclaration(node) || ts.isTypeAliasDeclaration(node)) return true;
  if (ts.isThrowStatement(node)) return true;
  // Numbers and choices inside words for people change the words alone.
  if (ts.isTemplateExpression(node) || ts.isStringLiteralLike(node)) return true;
  if (ts.isCallExpression(node) || ts.isNewExpression(node)) return WORDS.test(lastName(node.expression, file));
  return false;
}

function lastName(node: ts.Expression, file: ts.SourceFile): string {
  return (ts.isPropertyAccessExpression(node) ? node.name : node).getText(file);
}

/** Whether nothing runs on after this statement. */
function leaves(node: ts.Statement): boolean {
  if (ts.isBlock(node)) {
    const last = node.statements.at(-1);
    return node.statements.length === 1 && last !== undefined && leaves(last);
  }
  return (
    ts.isReturnStatement(node) || ts.isThrowStatement(node) || ts.isContinueStatement(node) || ts.isBreakStatement(node)
  );
}

/** Whether a comparison with it turns on whole numbers; between measured ones the edge itself is never met. */
function isCount(node: ts.Expression, file: ts.SourceFile): boolean {
  return (
    ts.isNumericLiteral(node) || /(^|\.)(length|size|count|i|j|k|n|index|at|end)$/i.test(node.getText(file).trim())
  );
}

function sameType(checker: ts.TypeChecker, a: ts.Type, b: ts.Type): boolean {
  if ((a.flags & ts.TypeFlags.Any) !== 0) return false;
  return a === b || checker.typeToString(a) === checker.typeToString(b);
}

/** In brackets where an operator could tear it apart. */
function wrapped(node: ts.Expression, file: ts.SourceFile): string {
  return ts.isBinaryExpression(node) || ts.isConditionalExpression(node)
    ? `(${node.getText(file)})`
    : node.getText(file);
}
