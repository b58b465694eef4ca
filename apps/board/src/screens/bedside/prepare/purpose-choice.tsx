import { Choice } from '../../../ui/choice.tsx';
import { useBedside } from '../bedside-context.ts';
import type { Purpose } from './prepare-draft.ts';

/** What this visit is for. An empty cavity has nothing to drain; what is inside is not filled onto without a drain. */
export const PurposeChoice = ({ purpose, onChange }: { purpose: Purpose; onChange: (purpose: Purpose) => void }) => {
  const { state } = useBedside();
  const options: { value: Purpose; label: string }[] =
    state.cavity.state === 'empty'
      ? [
          { value: 'fillOnly', label: 'Fill' },
          { value: 'exchange', label: 'Drain and fill' },
        ]
      : [
          { value: 'exchange', label: 'Drain and fill' },
          { value: 'drainOnly', label: 'Drain only' },
        ];
  return <Choice label="What for" hideLabel value={purpose} onChange={onChange} options={options} />;
};
