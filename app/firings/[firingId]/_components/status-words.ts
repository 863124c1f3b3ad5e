export const STATUS_WORDS: Readonly<Record<string, string>> = {
  held: "Firing, only held",
  lapsed: "Firing, held and not booked",
  planned: "Firing, planned",
  started: "Firing, started",
  opened: "Firing, opened",
  cancelled: "Firing, cancelled",
  released: "Firing, released by the manager",
};
