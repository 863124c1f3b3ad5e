import Link from "next/link";
import { TopNav } from "@/app/_components/top-nav";
import { paths } from "@/lib/contracts/paths";
import { readShell } from "@/lib/server/queries/shell";
import { currentPerson, currentWho } from "@/lib/server/session";
import { navLinks, rolesInWords } from "./nav-links";
import { SignOutButton } from "./sign-out-button";

/** The head of every page, for whoever is there. */
export async function ShellNav() {
  const who = await currentWho();
  if (who === null) {
    const person = await currentPerson();
    return (
      <TopNav workshop="Lehrbook" links={[]} member={person === null ? undefined : { name: person.email, roles: "in no workshop" }}>
        {person !== null && <SignOutButton />}
      </TopNav>
    );
  }
  const { unreadNotices } = await readShell(who, undefined);
  return (
    <TopNav workshop={who.workshopName} links={navLinks(who.roles)} member={{ name: who.name, roles: rolesInWords(who.roles) }}>
      <Link href={paths.profile}>Profile</Link>
      <Link href={paths.notices}>Notices{unreadNotices > 0 && ` (${unreadNotices} unread)`}</Link>
      <SignOutButton />
    </TopNav>
  );
}
