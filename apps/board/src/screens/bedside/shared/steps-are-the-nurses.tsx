import { Notice } from '../../../ui/notice.tsx';
import { useBedside } from '../bedside-context.ts';

/** Who may look at an exchange and not record its steps is told before a touch that would be refused. */
export const StepsAreTheNurses = () => {
  const { mayDo } = useBedside();
  if (mayDo('recordExchange')) return null;
  return (
    <Notice>
      <span>
        The steps of an exchange are recorded by nurses.
        {mayDo('overrideGuard') && ' Going on against a stop, with a reason, is yours too.'}
      </span>
    </Notice>
  );
};
