export const STATUS_WORDS: Readonly<Record<string, string>> = {
  planned: "Firing, planned",
  started: "Firing, started",
  opened: "Firing, opened",
  cancelled: "Firing, cancelled",
  released: "Firing, released by the manager",
};
