export function wishedPort(text?: string): number;
export function portTaken(port: number): Error;
export function checkPort(port: number, host: string): Promise<void>;
