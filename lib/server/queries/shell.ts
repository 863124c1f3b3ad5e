import { query } from "@/lib/server/query";

export type Shell = { readonly unreadNotices: number };

/** What the head of every page shows beside the links. */
export const readShell = query<undefined, Shell>({
  name: "shell",
  needs: "see-workshop",
  run: async ({ who, tx }) => ({
    unreadNotices: await tx.notice.count({ where: { memberId: who.memberId, readAt: null } }),
  }),
});
