/** The frame of every dialog: a modal with its title, closed by Escape or its closing button. */
import { useId, useLayoutEffect, useRef } from "react";
import type { ReactNode } from "react";

interface DialogBoxProps {
  readonly title: string;
  readonly onClose: () => void;
  /** Buttons along the foot; the last is the one that loses nothing. */
  readonly foot?: ReactNode;
  readonly wide?: boolean;
  readonly children: ReactNode;
}

export function DialogBox({ title, onClose, foot, wide = false, children }: DialogBoxProps) {
  const box = useRef<HTMLDialogElement>(null);
  const heading = useId();
  useLayoutEffect(() => {
    const dialog = box.current;
    dialog?.showModal();
    // The browser would take the first thing that can be focused: the text, from which Enter leads nowhere.
    dialog?.querySelector<HTMLElement>("[data-first]")?.focus();
    // Closing gives the focus back to where it was, as long as the dialog still stands in the page.
    return () => dialog?.close();
  }, []);
  return (
    <dialog
      ref={box}
      className="dialog"
      data-wide={wide}
      aria-labelledby={heading}
      onCancel={(event) => {
        event.preventDefault();
        onClose();
      }}
    >
      <h2 id={heading}>{title}</h2>
      {/* What is longer than the window scrolls, and the keyboard must be able to scroll it. */}
      <div className="dialog-body" tabIndex={0} role="group" aria-labelledby={heading}>
        {children}
      </div>
      <div className="dialog-foot">
        {foot ?? (
          <button type="button" className="dialog-main" data-first onClick={onClose}>
            Close
          </button>
        )}
      </div>
    </dialog>
  );
}
