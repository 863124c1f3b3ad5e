/** A server may close a connection that was idle for seconds just as the next request goes out on it: that one was not received, and goes once more. */
export const AGAIN = { maxRetries: 2 } as const;
