import type { Role } from "@/lib/domain/access/roles";

/** Where, whoever asks. */
export type Place = Pick<Who, "workshopId" | "timeZone">;

/** Who is asking, in which workshop; made anew from the database at every request. */
export type Who = {
  readonly personId: string;
  readonly memberId: string;
  readonly workshopId: string;
  readonly workshopName: string;
  readonly timeZone: string;
  readonly name: string;
  readonly email: string;
  readonly roles: readonly Role[];
  /** Set when a script asks with this person's token. */
  readonly token?: { readonly tokenId: string; readonly name: string };
};
