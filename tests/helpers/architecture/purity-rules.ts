import ts from "typescript";
import { parse, type SourceFile } from "./source-files";

/** Globals through which a clock, the environment, randomness or the outside world gets in. */
const IMPURE_GLOBALS: readonly string[] = [
  "Date", "performance", "process", "crypto", "globalThis", "window", "document", "navigator", "localStorage",
  "setTimeout", "setInterval", "setImmediate", "queueMicrotask", "fetch", "require", "console", "Promise", "Buffer", "__dirname",
];

const IMPURE_MEMBERS: readonly (readonly [object: string, member: string])[] = [["Math", "random"], ["Temporal", "Now"]];

/** One line for every place where a file of the domain asks the world instead of being told. */
export function purityFaults(file: SourceFile): readonly string[] {
  const source = parse(file);
  const own = declaredNames(source);
  const faults: string[] = [];
  const visit = (node: ts.Node): void => {
    const what = impurityOf(node, own);
    if (what !== undefined) {
      const { line } = source.getLineAndCharacterOfPosition(node.getStart(source));
      faults.push(`${file.path}:${line + 1} uses ${what}`);
    }
    ts.forEachChild(node, visit);
  };
  visit(source);
  return faults;
}

function impurityOf(node: ts.Node, own: ReadonlySet<string>): string | undefined {
  if (node.kind === ts.SyntaxKind.AsyncKeyword) return "async";
  if (ts.isAwaitExpression(node) || (ts.isForOfStatement(node) && node.awaitModifier !== undefined)) return "await";
  if (ts.isMetaProperty(node)) return "import.meta";
  if (ts.isCallExpression(node) && node.expression.kind === ts.SyntaxKind.ImportKeyword) return "a dynamic import";
  if (ts.isCallExpression(node) && usesMachineLocale(node)) return "the machine's own locale";
  if (ts.isNewExpression(node) && isIntlWithoutLocale(node)) return "the machine's own locale";
  if (ts.isPropertyAccessExpression(node) && ts.isIdentifier(node.expression)) {
    const object = node.expression.text;
    const pair = IMPURE_MEMBERS.find(([name, member]) => name === object && member === node.name.text);
    if (pair !== undefined) return pair.join(".");
  }
  if (ts.isIdentifier(node) && IMPURE_GLOBALS.includes(node.text) && !own.has(node.text) && isReference(node)) return node.text;
  return undefined;
}

/** Not a property called "process", not a key of an object, not a label: the global of that name. */
function isReference(node: ts.Identifier): boolean {
  const { parent } = node;
  if (ts.isPropertyAccessExpression(parent) || ts.isPropertySignature(parent) || ts.isMethodSignature(parent)) {
    return ts.isPropertyAccessExpression(parent) && parent.expression === node;
  }
  if (ts.isPropertyAssignment(parent)) return parent.initializer === node;
  if (ts.isQualifiedName(parent)) return parent.left === node;
  return !(ts.isMethodDeclaration(parent) || ts.isPropertyDeclaration(parent) || ts.isNamedTupleMember(parent));
}

function usesMachineLocale(call: ts.CallExpression): boolean {
  if (!ts.isPropertyAccessExpression(call.expression)) return false;
  const method = call.expression.name.text;
  // "a".localeCompare(b, locale) takes it second, the others first.
  if (method === "localeCompare") return isMissing(call.arguments[1]);
  return /^toLocale(String|DateString|TimeString)$/.test(method) && isMissing(call.arguments[0]);
}

function isIntlWithoutLocale(created: ts.NewExpression): boolean {
  const { expression } = created;
  return ts.isPropertyAccessExpression(expression) && ts.isIdentifier(expression.expression) && expression.expression.text === "Intl"
    && isMissing(created.arguments?.[0]);
}

function isMissing(argument: ts.Expression | undefined): boolean {
  return argument === undefined || (ts.isIdentifier(argument) && argument.text === "undefined");
}

function declaredNames(source: ts.SourceFile): ReadonlySet<string> {
  const names = new Set<string>();
  const visit = (node: ts.Node): void => {
    const declares = ts.isVariableDeclaration(node) || ts.isParameter(node) || ts.isBindingElement(node)
      || ts.isFunctionDeclaration(node) || ts.isImportSpecifier(node) || ts.isTypeAliasDeclaration(node);
    if (declares && node.name !== undefined && ts.isIdentifier(node.name)) names.add(node.name.text);
    ts.forEachChild(node, visit);
  };
  visit(source);
  return names;
}
