/** One password for everybody in the demo; it opens nothing but the demo. */
export const DEMO_PASSWORD = "tide over saltmarsh";

/** The three that are shown to whoever tries the demo: what each of them comes for. */
export const DEMO_SIGN_INS = [
  { role: "member", email: "mette@saltmarsh.example" },
  { role: "manager", email: "ingrid@saltmarsh.example" },
  { role: "assistant", email: "tomasz@saltmarsh.example" },
] as const;
