import { readdirSync, readFileSync } from "node:fs";
import { join, posix, resolve } from "node:path";
import ts from "typescript";

export type SourceFile = {
  /** From the top of the repository, with forward slashes. */
  readonly path: string;
  readonly text: string;
};

export const ROOT = resolve(import.meta.dirname, "../../..");

/** Written by tools, or not ours to shape. */
const SKIPPED_FOLDERS = ["lib/server/prisma-client"];

/** Every file below these folders; a folder that does not exist yet has none. */
export function filesBelow(folders: readonly string[]): readonly SourceFile[] {
  return folders.flatMap((folder) => pathsBelow(folder)).map((path) => ({ path, text: readFileSync(join(ROOT, path), "utf8") }));
}

function pathsBelow(folder: string): readonly string[] {
  let entries;
  try {
    entries = readdirSync(join(ROOT, folder), { withFileTypes: true });
  } catch {
    return [];
  }
  return entries.flatMap((entry): readonly string[] => {
    const path = posix.join(folder, entry.name);
    if (SKIPPED_FOLDERS.includes(path)) return [];
    return entry.isDirectory() ? pathsBelow(path) : [path];
  });
}

export function isCode(file: SourceFile): boolean {
  return /\.(ts|tsx|mts|mjs|js|jsx)$/.test(file.path);
}

/** Several rules look at a file; it is parsed, and its imports are gathered, once. */
export const parse = once((file: SourceFile): ts.SourceFile => {
  const kind = /\.(tsx|jsx)$/.test(file.path) ? ts.ScriptKind.TSX : ts.ScriptKind.TS;
  return ts.createSourceFile(file.path, file.text, ts.ScriptTarget.ES2022, true, kind);
});

function once<Question extends object, Answer>(work: (question: Question) => Answer): (question: Question) => Answer {
  const known = new WeakMap<Question, { readonly answer: Answer }>();
  return (question) => {
    const kept = known.get(question) ?? { answer: work(question) };
    known.set(question, kept);
    return kept.answer;
  };
}

/** The directives at the very top: "use client", "use server". */
export function directivesOf(statements: readonly ts.Statement[]): readonly string[] {
  const found: string[] = [];
  for (const statement of statements) {
    if (!ts.isExpressionStatement(statement) || !ts.isStringLiteral(statement.expression)) break;
    found.push(statement.expression.text);
  }
  return found;
}

/** Every module named by an import, a re-export, a dynamic import, a require or an import type. */
export const importsOf = once((source: ts.SourceFile): readonly string[] => {
  const found: string[] = [];
  const visit = (node: ts.Node): void => {
    const named = moduleNamedBy(node);
    if (named !== undefined && ts.isStringLiteralLike(named)) found.push(named.text);
    ts.forEachChild(node, visit);
  };
  visit(source);
  return found;
});

function moduleNamedBy(node: ts.Node): ts.Node | undefined {
  if (ts.isImportDeclaration(node) || ts.isExportDeclaration(node)) return node.moduleSpecifier;
  if (ts.isImportTypeNode(node) && ts.isLiteralTypeNode(node.argument)) return node.argument.literal;
  if (!ts.isCallExpression(node)) return undefined;
  const calls = node.expression.kind === ts.SyntaxKind.ImportKeyword || (ts.isIdentifier(node.expression) && node.expression.text === "require");
  return calls ? node.arguments[0] : undefined;
}
