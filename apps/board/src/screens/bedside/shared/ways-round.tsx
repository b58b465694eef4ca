import { Button } from '../../../ui/button.tsx';
import { useBedside } from '../bedside-context.ts';

type WayProps = { words: string; onPress: () => void };

/** Going on against a stop by an order that a nurse takes down. @param above what the order then stands above */
export const ByTelephone = ({ words, above, onPress }: WayProps & { above: string }) => {
  const { mayDo } = useBedside();
  return (
    <li>
      <Button
        tone="text"
        onPress={onPress}
        disabledBecause={mayDo('telephoneOrder') ? null : 'only a nurse takes an order by telephone'}
      >
        {words}
      </Button>
      <br />
      <span>Needs the physician’s name and that it was read back; it then stands above {above}.</span>
    </li>
  );
};

/** Going on against a stop by right of role, which asks for a reason. */
export const ByRole = ({ words, onPress }: WayProps) => {
  const { mayDo } = useBedside();
  return (
    <li>
      <Button
        tone="text"
        onPress={onPress}
        disabledBecause={mayDo('overrideGuard') ? null : 'a charge nurse or a nephrologist, with a reason'}
      >
        {words}
      </Button>
      <br />
      <span>Local policy comes first. Who decided and why stands in the record and in the audit.</span>
    </li>
  );
};
