import type { EntryView } from '@slackwater/contract';
import { createContext, use } from 'react';
import type { Place } from './model/place.ts';
import type { PatientContext } from './shared/use-patient.ts';
import type { Recorder } from './shared/use-record.ts';

/** What every block of the bedside works with. */
export type Bedside = PatientContext &
  Recorder & {
    place: Place;
    /** The patient's newest entries, newest first. */
    entries: readonly EntryView[];
    /** The screens that a person opens beside the one the record asks for. */
    open: (aside: Aside) => void;
    /** Back to the screen the record asks for. */
    back: () => void;
  };

export type Aside = 'looks' | 'stop' | 'leaveEmpty' | 'confirmEmpty' | 'override' | 'order' | 'stopEarly' | 'secondBag';

const Context = createContext<Bedside | null>(null);

export const BedsideProvider = Context.Provider;

/** The bedside that a block stands in. */
export const useBedside = (): Bedside => {
  const bedside = use(Context);
  if (!bedside) throw new Error('A block of the bedside stands outside a bedside');
  return bedside;
};
