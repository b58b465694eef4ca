import type { WardSettings } from '@slackwater/domain';
import { Choice } from '../../../ui/choice.tsx';
import { NumberField } from '../../../ui/number-field.tsx';
import { AppearanceChoices } from '../../bedside/shared/appearance-choices.tsx';
import { InstantField } from '../../bedside/shared/instant-field.tsx';
import { Tick } from '../../bedside/shared/tick.tsx';
import type { DrainDraft } from './missed-draft.ts';
import { WatchedChoice } from './watched-choice.tsx';

type MissedDrainProps = {
  draft: DrainDraft;
  onChange: (part: Partial<DrainDraft>) => void;
  settings: WardSettings;
  zone: string;
};

/** What came out, how it looked and how it ended, as far as somebody knows. */
export const MissedDrain = ({ draft, onChange, settings, zone }: MissedDrainProps) => (
  <>
    <InstantField label="Drain started" typed={draft.start} onTyped={(start) => onChange({ start })} zone={zone} />
    <InstantField label="Drain ended" typed={draft.end} onTyped={(end) => onChange({ end })} zone={zone} />
    {!draft.notKnown && (
      <>
        <NumberField
          label="Drained, without flush"
          typed={draft.drained}
          onTyped={(drained) => onChange({ drained })}
          least={0}
          most={settings.drainedMostMl}
          unit="mL"
        />
        <Choice
          label="Measured by"
          value={draft.method}
          onChange={(method) => onChange({ method })}
          options={[
            { value: 'bagMarks', label: 'Bag marks' },
            { value: 'jug', label: 'Measuring jug' },
          ]}
        />
      </>
    )}
    <Tick checked={draft.notKnown} onChange={(notKnown) => onChange({ notKnown })}>
      Drained volume not known: the dwell stays incomplete
    </Tick>
    {!draft.appearanceNotWatched && (
      <AppearanceChoices values={draft.appearance} onChange={(appearance) => onChange({ appearance })} />
    )}
    <Tick
      checked={draft.appearanceNotWatched}
      onChange={(appearanceNotWatched) => onChange({ appearanceNotWatched, appearance: [] })}
    >
      Nobody watched how it looked: it stays not known, and is not taken for clear
    </Tick>
    <WatchedChoice
      label="How the flow ended"
      value={draft.flow}
      onChange={(flow) => onChange({ flow })}
      seen={[
        { value: 'stopped', label: 'It ran to a stop' },
        { value: 'notStopped', label: 'Ended while it ran' },
      ]}
    />
    <Tick checked={draft.discarded} onChange={(discarded) => onChange({ discarded })}>
      The drain bag was discarded
    </Tick>
  </>
);
