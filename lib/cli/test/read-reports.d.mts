export type Counts = { readonly passed: number; readonly failed: number; readonly skipped: number; readonly faults: readonly string[] };
export function readVitest(file: string): Counts | undefined;
export function readPlaywright(file: string): Counts | undefined;
