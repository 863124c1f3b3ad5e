/** What the tests run with in place of a real AUTH_SECRET. */
export const TEST_AUTH_SECRET = "only for tests, 32 characters or more";
