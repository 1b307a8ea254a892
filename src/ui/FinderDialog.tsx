import type { ReactNode } from "react";
import { Dialog, Heading, Modal, ModalOverlay } from "react-aria-components";

/** The frame of a dialog in which something is found by typing; a press beside it closes it. `label`: what it is announced as. */
export function FinderDialog({
  label,
  title,
  open,
  onOpenChange,
  children,
}: {
  readonly label: string;
  readonly title: string;
  readonly open: boolean;
  readonly onOpenChange: (open: boolean) => void;
  readonly children: ReactNode;
}) {
  return (
    <ModalOverlay className="veil" isOpen={open} onOpenChange={onOpenChange} isDismissable>
      <Modal className="modal">
        <Dialog aria-label={label}>
          <Heading slot="title">{title}</Heading>
          {children}
        </Dialog>
      </Modal>
    </ModalOverlay>
  );
}
