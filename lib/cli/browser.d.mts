export function presentBrowser(): string | undefined;
export function findBrowser(): Promise<string>;
