import type { NavLink } from "@/app/_components/top-nav";
import { paths } from "@/lib/contracts/paths";
import { can, type Capability, type Role } from "@/lib/domain/access/roles";

const LINKS: readonly (NavLink & { readonly needs: Capability })[] = [
  { href: paths.castings, label: "Castings", needs: "write-castings" },
  { href: paths.calendar, label: "Calendar", needs: "see-workshop" },
  { href: paths.wall, label: "Kiln wall", needs: "see-workshop" },
  { href: paths.lifts(), label: "Lifts", needs: "see-lifts" },
  { href: paths.asks, label: "Asks", needs: "book-runs" },
  { href: paths.clashes, label: "Clashes", needs: "settle-clashes" },
  { href: paths.people, section: "/workshop", label: "Workshop", needs: "manage-people" },
];

/** The links of the top navigation that these roles have any use for. */
export function navLinks(roles: readonly Role[]): readonly NavLink[] {
  return LINKS.filter((link) => can(roles, link.needs)).map(({ href, section, label }) => ({ href, section, label }));
}

/** "member and manager", for the member menu. */
export function rolesInWords(roles: readonly Role[]): string {
  return new Intl.ListFormat("en", { type: "conjunction" }).format(roles);
}
