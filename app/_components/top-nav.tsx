"use client";

import Link from "next/link";
import { usePathname } from "next/navigation";
import { useEffect, useId, useRef, useState, type ReactNode } from "react";
import styles from "./top-nav.module.css";

export type NavLink = {
  readonly href: string;
  readonly label: string;
  /** Where the link's part of the house begins, when that is above its own address, e.g. "/workshop". */
  readonly section?: string | undefined;
  /** How many things behind this link wait for this person. */
  readonly waiting?: number | undefined;
};

type TopNavProps = {
  readonly workshop: string;
  readonly home?: string | undefined;
  readonly links: readonly NavLink[];
  readonly member?: { readonly name: string; readonly roles: string } | undefined;
  /** Links and forms of the member menu, e.g. settings and sign-out. */
  readonly children?: ReactNode;
};

/** The head of every page: which workshop, where to go, who is signed in. On a phone it folds into "Menu". */
export function TopNav({ workshop, home = "/", links, member, children }: TopNavProps) {
  const path = usePathname();
  const menu = useFold(path);
  return (
    <header className={styles["bar"]} ref={menu.ref} onKeyDown={menu.onKeyDown}>
      <a href="#main" className={styles["skip"]}>
        Skip to the page
      </a>
      <div className={styles["inner"]}>
        <Link href={home} className={styles["workshop"]}>
          {workshop}
        </Link>
        {(links.length > 0 || member !== undefined) && (
          <button type="button" className={styles["toggle"]} aria-expanded={menu.open} aria-controls={menu.id} onClick={menu.toggle}>
            Menu
            <Waiting count={links.reduce((sum, link) => sum + (link.waiting ?? 0), 0)} />
          </button>
        )}
        <div id={menu.id} className={styles["panel"]} data-open={menu.open}>
          <nav aria-label="Workshop" style={{ display: "flex" }}>
            <ul className={styles["links"]}>
              {links.map((link) => (
                <li key={link.href}>
                  <Link href={link.href} className={styles["link"]} aria-current={isCurrent(path, link, links) ? "page" : undefined}>
                    {link.label}
                    <Waiting count={link.waiting ?? 0} />
                  </Link>
                </li>
              ))}
            </ul>
          </nav>
          {member !== undefined && (
            <MemberMenu path={path} member={member}>
              {children}
            </MemberMenu>
          )}
        </div>
      </div>
    </header>
  );
}

function MemberMenu({ path, member, children }: Pick<TopNavProps, "children"> & { readonly path: string | null; readonly member: NonNullable<TopNavProps["member"]> }) {
  const menu = useFold(path);
  return (
    <div className={styles["member"]} ref={menu.ref} onKeyDown={menu.onKeyDown}>
      <button type="button" className={styles["memberButton"]} aria-expanded={menu.open} aria-controls={menu.id} onClick={menu.toggle}>
        {member.name}
      </button>
      <div id={menu.id} className={styles["memberMenu"]} data-open={menu.open}>
        <div className={styles["roles"]}>
          {member.name}, {member.roles}
        </div>
        {children}
      </div>
    </div>
  );
}

function Waiting({ count }: { readonly count: number }) {
  if (count <= 0) return null;
  return (
    <span className={styles["count"]}>
      {count}
      <span className="sr-only"> waiting for you</span>
    </span>
  );
}

/** Open or folded; folds on Escape, on a press elsewhere, and when another page is shown. */
function useFold(path: string | null) {
  const id = useId();
  const ref = useRef<HTMLDivElement>(null);
  const [openOn, setOpenOn] = useState<string | null>(null);
  const open = openOn !== null && openOn === (path ?? "");
  useEffect(() => {
    if (!open) return;
    const onPress = (event: PointerEvent) => {
      if (event.target instanceof Node && !ref.current?.contains(event.target)) setOpenOn(null);
    };
    document.addEventListener("pointerdown", onPress);
    return () => document.removeEventListener("pointerdown", onPress);
  }, [open]);
  return {
    id,
    ref,
    open,
    toggle: () => setOpenOn(open ? null : (path ?? "")),
    onKeyDown: (event: { readonly key: string }) => {
      if (event.key === "Escape") setOpenOn(null);
    },
  };
}

/** The link whose address is the longest beginning of the path: "/castings" on "/castings/7/edit". */
function isCurrent(path: string | null, link: NavLink, links: readonly NavLink[]): boolean {
  const start = ({ section, href }: NavLink) => section ?? href;
  const holds = (begins: string) => path === begins || (begins !== "/" && (path?.startsWith(`${begins}/`) ?? false));
  return holds(start(link)) && !links.some((other) => start(other).length > start(link).length && holds(start(other)));
}
