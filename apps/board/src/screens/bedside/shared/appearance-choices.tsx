import type { Appearance } from '@slackwater/domain';
import { APPEARANCES } from '@slackwater/domain/effluent/effluent';
import { Choices } from '../../../ui/choice.tsx';

const LABELS: Record<Appearance, string> = {
  clear: 'Clear: print readable through the bag',
  cloudy: 'Cloudy',
  fibrin: 'Fibrin strands',
  pink: 'Pink',
  bloody: 'Bloody',
  milky: 'Milky',
  brown: 'Brown or faecal',
  green: 'Green',
};

const OPTIONS = APPEARANCES.map((value) => ({ value, label: LABELS[value] }));

type AppearanceChoicesProps = {
  values: readonly Appearance[];
  onChange: (values: readonly Appearance[]) => void;
  hideLabel?: boolean;
  className?: string | undefined;
};

/** How the effluent looks, all that is told apart. Clear and anything else exclude each other; pink with fibrin may stand together. */
export const AppearanceChoices = ({ values, onChange, ...rest }: AppearanceChoicesProps) => (
  <Choices
    {...rest}
    label="Appearance"
    options={OPTIONS}
    values={values}
    onChange={(next) => {
      const added = next.find((one) => !values.includes(one));
      onChange(added === 'clear' ? ['clear'] : next.filter((one) => one !== 'clear' || next.length === 1));
    }}
  />
);
