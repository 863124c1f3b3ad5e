"use client";

import type { ReactNode } from "react";
import { Dialog as AriaDialog, Heading, Modal, ModalOverlay } from "react-aria-components";
import styles from "./dialog.module.css";

type DialogProps = {
  readonly title: string;
  readonly open: boolean;
  /** Called when the person leaves it: Escape, a click beside it, or a button inside. */
  readonly onClose: () => void;
  /** Must be answered: Escape leaves, a click beside it does not. */
  readonly mustAnswer?: boolean | undefined;
  readonly children: ReactNode;
};

/** A question in front of the page: a sheet from below on a phone, a card in the middle otherwise. */
export function Dialog({ title, open, onClose, mustAnswer = false, children }: DialogProps) {
  return (
    <ModalOverlay
      isOpen={open}
      onOpenChange={(isOpen) => {
        if (!isOpen) onClose();
      }}
      isDismissable={!mustAnswer}
      className={styles["veil"] ?? ""}
    >
      <Modal className={styles["sheet"] ?? ""}>
        <AriaDialog className={styles["dialog"] ?? ""}>
          <Heading slot="title" level={2} className={styles["title"] ?? ""}>
            {title}
          </Heading>
          {children}
        </AriaDialog>
      </Modal>
    </ModalOverlay>
  );
}

export function DialogActions({ children }: { readonly children: ReactNode }) {
  return <div className={styles["actions"]}>{children}</div>;
}
