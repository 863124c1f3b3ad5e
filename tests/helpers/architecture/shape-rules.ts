import { posix } from "node:path";
import ts from "typescript";
import { directivesOf, isCode, parse, type SourceFile } from "./source-files";

export const MAX_FILE_LINES = 400;
export const MAX_ACTION_LINES = 20;

/** Tables of figures, which are longer than code should be. */
const DATA_TABLES: readonly string[] = [];

/** File too long, name not kebab-case, a barrel, or a drawer called utils. */
export function fileFaults(file: SourceFile): readonly string[] {
  const faults: string[] = [];
  const lines = file.text.replace(/\n$/, "").split("\n").length;
  const name = posix.basename(file.path);
  if (/\.(ts|tsx|mts|mjs|css)$/.test(name) && lines > MAX_FILE_LINES && !DATA_TABLES.includes(file.path)) {
    faults.push(`${file.path} has ${lines} lines; at most ${MAX_FILE_LINES} are allowed`);
  }
  if (isCode(file) && !isKebabPath(file.path)) faults.push(`${file.path} is not named in kebab-case`);
  if (/^lib\/.*\/index\.(ts|tsx|mjs)$/.test(file.path)) faults.push(`${file.path} is a barrel; import the file that has it`);
  if (/^utils?\./.test(name)) faults.push(`${file.path} says nothing about what is in it`);
  return faults;
}

/** Next's own marks on folders are allowed: (group), [param], [...rest], @slot, _private; and a folder that is an address with an ending. */
function isKebabPath(path: string): boolean {
  const folders = path.split("/").slice(0, -1);
  const word = "[a-z0-9]+(-[a-z0-9]+)*";
  const folder = new RegExp(`^(_?${word}|${word}\\.(json|ics)|@${word}|\\(${word}\\)|\\[(\\.\\.\\.)?[a-zA-Z0-9]+\\]|\\[\\[\\.\\.\\.[a-zA-Z0-9]+\\]\\])$`);
  const file = new RegExp(`^${word}(\\.${word})+$`);
  return folders.every((name) => folder.test(name)) && file.test(posix.basename(path));
}

/**
 * Server actions stand in app/**\/actions.ts and stay thin: parse, command, outcome. Anything longer
 * belongs in a command, and an action hidden inside a page is found by nobody.
 */
export function actionFaults(file: SourceFile): readonly string[] {
  if (!isCode(file)) return [];
  const source = parse(file);
  const isActions = /^app\/(.*\/)?actions\.ts$/.test(file.path);
  const isServer = directivesOf(source.statements).includes("use server");
  const faults = inlineActions(source).map((line) => `${file.path}:${line} is a server action outside an actions.ts`);
  if (isServer && !isActions) faults.push(`${file.path} holds server actions but is not an app/**/actions.ts`);
  if (isActions && !isServer) faults.push(`${file.path} does not begin with "use server"`);
  if (!isActions) return faults;
  for (const [name, body] of exportedBodies(source)) {
    const lines = linesInside(source, body);
    if (lines > MAX_ACTION_LINES) faults.push(`${file.path}: ${name} has ${lines} lines of body; at most ${MAX_ACTION_LINES} are allowed`);
  }
  return faults;
}

function inlineActions(source: ts.SourceFile): readonly number[] {
  const lines: number[] = [];
  const visit = (node: ts.Node): void => {
    if (ts.isBlock(node) && directivesOf(node.statements).includes("use server")) {
      lines.push(source.getLineAndCharacterOfPosition(node.getStart(source)).line + 1);
    }
    ts.forEachChild(node, visit);
  };
  visit(source);
  return lines;
}

function exportedBodies(source: ts.SourceFile): readonly (readonly [name: string, body: ts.Node])[] {
  return source.statements.flatMap((statement): readonly (readonly [string, ts.Node])[] => {
    if (!ts.canHaveModifiers(statement)) return [];
    if (ts.getModifiers(statement)?.some((modifier) => modifier.kind === ts.SyntaxKind.ExportKeyword) !== true) return [];
    if (ts.isFunctionDeclaration(statement)) return statement.body === undefined ? [] : [[statement.name?.text ?? "default", statement.body]];
    if (!ts.isVariableStatement(statement)) return [];
    return statement.declarationList.declarations.flatMap((declaration): readonly (readonly [string, ts.Node])[] =>
      declaration.initializer === undefined ? [] : [[declaration.name.getText(source), declaration.initializer]],
    );
  });
}

/** Lines strictly between the first and the last line of a body. */
function linesInside(source: ts.SourceFile, body: ts.Node): number {
  const first = source.getLineAndCharacterOfPosition(body.getStart(source)).line;
  const last = source.getLineAndCharacterOfPosition(body.getEnd()).line;
  return Math.max(0, last - first - 1);
}
