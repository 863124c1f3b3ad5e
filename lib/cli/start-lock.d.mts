export type Holder = { readonly pid: number; readonly began?: string; readonly port: number };
export function currentHolder(folder: string): Holder | undefined;
export function takeLock(folder: string, port: number): () => void;
