/** One change that a member asked for, and what came of it as the member knows it. */
export type Asked = {
  readonly op: "book-run" | "move-run" | "cancel-run" | "lengthen-booking" | "create-ask";
  readonly memberId: string;
  /** Null where the operation takes none. */
  readonly key: string | null;
  readonly outcome: "acknowledged" | "refused" | "unknown";
  /** Of an acknowledged change. */
  readonly answer?: Answer;
  /** What the same key was answered later; each must be the same. */
  readonly again?: readonly Answer[];
};

export type Answer = { readonly firingId?: string; readonly castingId?: string; readonly kilnFrom?: string; readonly kilnTo?: string; readonly askId?: string };

/** What the database holds in the end. Times in epoch milliseconds. */
export type Facts = {
  readonly firings: readonly { readonly firingId: string; readonly memberId: string; readonly status: string; readonly purposes: readonly string[] }[];
  readonly bookings: readonly { readonly firingId: string; readonly equipmentId: string; readonly purpose: string; readonly start: number; readonly end: number; readonly standing: boolean }[];
  readonly audits: readonly { readonly action: string; readonly subjectId: string; readonly memberId: string | null; readonly after: Answer & Readonly<Record<string, unknown>> }[];
  readonly receipts: readonly { readonly memberId: string; readonly key: string; readonly answer: Answer }[];
  readonly notices: readonly { readonly memberId: string; readonly href: string; readonly text: string }[];
  readonly mails: readonly { readonly mailId: string; readonly memberId: string | null; readonly kind: string; readonly done: boolean }[];
  /** The mails for which a job is in the queue. */
  readonly jobs: readonly string[];
  readonly asks: readonly string[];
};
