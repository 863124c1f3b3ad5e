import { paths } from "@/lib/contracts/paths";

type Letter = {
  readonly name: string;
  /** What happened, one paragraph each. */
  readonly said: readonly string[];
  readonly todo: string;
  readonly href: string;
  readonly workshopName: string;
  readonly timeZone: string;
  readonly publicUrl: string;
};

/** The text of a mail from a workshop to one of its members: what happened, what to do, where; and how to get fewer. */
export function letter({ name, said, todo, href, workshopName, timeZone, publicUrl }: Letter): string {
  return [
    `${name},`,
    ...said,
    `${todo}\n${publicUrl}${href}`,
    `${workshopName}. Times are on the workshop's clock (${timeZone}).\nYou choose what is mailed to you: ${publicUrl}${paths.mailChoices}`,
  ].join("\n\n");
}
