export const root: string;
export const stateFolder: string;
export class Trouble extends Error {}
export function say(sentence: string): void;
export function sentenceFor(error: unknown): string;
export function checkNode(version?: string): void;
export const quietEnvironment: Readonly<Record<string, string>>;
export function stopSteps(): void;
export type StepOptions = { readonly env?: Readonly<Record<string, string | undefined>>; readonly cwd?: string };
export type StepResult = { readonly code: number; readonly words: string; readonly logFile: string };
export function runLogged(name: string, command: string, args: readonly string[], options?: StepOptions): Promise<StepResult>;
export function runStep(what: string, name: string, command: string, args: readonly string[], options?: StepOptions): Promise<string>;
export function installPackages(): Promise<void>;
export function generateClient(): Promise<void>;
