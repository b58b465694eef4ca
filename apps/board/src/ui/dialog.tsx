import { type ReactNode, useEffect, useId, useRef } from 'react';
import { cx } from './class-names.ts';
import styles from './dialog.module.css';

type DialogProps = {
  title: ReactNode;
  children: ReactNode;
  /** Called for Escape and whenever the person turns away; what was typed is the caller's to keep. */
  onClose: () => void;
  className?: string | undefined;
};

/**
 * A question that must be answered before the screen beneath goes on. Rendered only while it is open. The platform's
 * own modal dialog keeps the focus inside, makes the rest inert and gives the focus back, without a line of style in
 * the page, so the content security policy needs no exception.
 */
export const Dialog = ({ title, children, onClose, className }: DialogProps) => {
  const ref = useRef<HTMLDialogElement>(null);
  const titleId = useId();
  useEffect(() => {
    const dialog = ref.current;
    dialog?.showModal();
    return () => dialog?.close();
  }, []);
  return (
    <dialog
      ref={ref}
      className={cx(styles.dialog, className)}
      aria-labelledby={titleId}
      onCancel={(event) => {
        event.preventDefault();
        onClose();
      }}
    >
      <h2 id={titleId} className={styles.title}>
        {title}
      </h2>
      {children}
    </dialog>
  );
};
