import type { ComponentProps, ReactNode } from 'react';
import styles from './button.module.css';
import { cx } from './class-names.ts';

export type ButtonTone = 'main' | 'side' | 'firm' | 'text';

type ButtonProps = Omit<ComponentProps<'button'>, 'disabled' | 'aria-disabled' | 'onClick'> & {
  children: ReactNode;
  /** `main` is the one next action of a screen; everything else is an edge or an underline. Default `side`. */
  tone?: ButtonTone;
  /** Set: the button may not be pressed, and says so in these words. It stays focusable, so that it can be read. */
  disabledBecause?: string | null | undefined;
  onPress?: () => void;
};

/** A button that may not be pressed always says why. */
export const Button = ({
  children,
  tone = 'side',
  disabledBecause,
  onPress,
  className,
  type,
  ...rest
}: ButtonProps) => (
  <button
    {...rest}
    type={type ?? 'button'}
    className={cx(styles.button, styles[tone], className)}
    aria-disabled={disabledBecause ? true : undefined}
    onClick={(event) => {
      if (disabledBecause) event.preventDefault();
      else onPress?.();
    }}
  >
    <span>{children}</span>
    {disabledBecause ? <small className={styles.why}>{disabledBecause}</small> : null}
  </button>
);
