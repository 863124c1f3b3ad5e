import Link from "next/link";
import type { ComponentProps } from "react";
import { buttonClass, type ButtonLook } from "./button";
import { classNames } from "./class-names";

type LinkButtonProps = ComponentProps<typeof Link> & {
  readonly look?: ButtonLook | undefined;
  readonly wide?: boolean | undefined;
};

/** A link to another page that looks like a button. */
export function LinkButton({ look = "plain", wide = false, className, ...rest }: LinkButtonProps) {
  return <Link {...rest} className={classNames(buttonClass(look, wide), className)} />;
}
