import type { ButtonHTMLAttributes, ReactNode } from "react";
import { classNames } from "./class-names";
import styles from "./button.module.css";

/** "main": the one thing this form is for. "trouble": takes something away. "bare": beside another button. */
export type ButtonLook = "plain" | "main" | "trouble" | "bare";

export type ButtonProps = ButtonHTMLAttributes<HTMLButtonElement> & {
  readonly look?: ButtonLook | undefined;
  readonly wide?: boolean | undefined;
  readonly children: ReactNode;
};

/** A button. Does not submit a form unless `type="submit"` is given; see SubmitButton. */
export function Button({ look = "plain", wide = false, type = "button", className, ...rest }: ButtonProps) {
  return <button {...rest} type={type} className={classNames(buttonClass(look, wide), className)} />;
}

export function buttonClass(look: ButtonLook = "plain", wide = false): string {
  return classNames(styles["button"], look !== "plain" && styles[look], wide && styles["wide"]);
}
