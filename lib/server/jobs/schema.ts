/** Where graphile-worker keeps its jobs; the application's role cannot look into it. */
export const JOBS_SCHEMA = "graphile_worker";
