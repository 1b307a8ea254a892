import { Modal, ModalOverlay } from "react-aria-components";
import { useStore } from "zustand";
import { useDesk } from "../desk-context.ts";
import { CompareDialog } from "./CompareDialog.tsx";
import { LayDialog } from "./LayDialog.tsx";

/** What is open of a sheet's issues: choosing and laying a new one, or comparing it with the one before. */
export function NewIssueDialogs() {
  const { view } = useDesk();
  const open = useStore(view.store, (state) => state.issues);
  const close = () => view.store.setState({ issues: null });
  return (
    <ModalOverlay className="veil" isOpen={open !== null} onOpenChange={(on) => !on && close()}>
      <Modal className="modal issues">
        {open?.is === "lay" && <LayDialog id={open.sheet} onDone={close} />}
        {open?.is === "compare" && <CompareDialog id={open.sheet} begin={open.begin} onDone={close} />}
      </Modal>
    </ModalOverlay>
  );
}
