import { useState } from 'react';
import type { Aside } from './bedside-context.ts';
import { useBedside } from './bedside-context.ts';
import { Drain } from './drain/drain.tsx';
import { DrainReady } from './drain/drain-ready.tsx';
import { Looks } from './drain/looks.tsx';
import { Fill } from './fill/fill.tsx';
import { FillReady } from './fill/fill-ready.tsx';
import { GuardOverride } from './fill/guard-override.tsx';
import { SecondBag } from './fill/second-bag.tsx';
import { SmallerFill } from './fill/smaller-fill.tsx';
import { StopEarly } from './fill/stop-early.tsx';
import { Finish } from './finish/finish.tsx';
import { Prepare } from './prepare/prepare.tsx';
import { Reading } from './reading/reading.tsx';
import { ConfirmEmpty } from './stop/confirm-empty.tsx';
import { LeaveEmpty } from './stop/leave-empty.tsx';
import { StopDialog } from './stop/stop-dialog.tsx';

/** The block under way. */
export const Work = ({ onNext }: { onNext: () => void }) => {
  const { place } = useBedside();
  switch (place) {
    case 'prepare':
      return <Prepare />;
    case 'drainReady':
      return <DrainReady />;
    case 'drain':
      return <Drain />;
    case 'reading':
      return <Reading />;
    case 'fillReady':
      return <FillReady />;
    case 'fill':
      return <Fill />;
    case 'finish':
      return <Finish onNext={onNext} />;
    // Still screens stand alone, without the staff.
    case 'connect':
    case 'closeReady':
    case 'close':
      return null;
  }
};

/** Screens that take the place of the work while they are open. */
export const WIDE: readonly Aside[] = ['looks', 'secondBag'];

export const WideWork = ({ aside }: { aside: Aside }) => {
  const { place } = useBedside();
  if (aside === 'secondBag') return <SecondBag />;
  return <Looks phase={place === 'fill' ? 'fill' : 'drain'} />;
};

/** Questions over the work. */
export const Question = ({ aside, onLeaveEmpty }: { aside: Aside; onLeaveEmpty: () => void }) => {
  switch (aside) {
    case 'stop':
      return <StopDialog />;
    case 'stopEarly':
      return <StopEarly />;
    case 'confirmEmpty':
      return <ConfirmEmpty />;
    case 'override':
      return <GuardOverride />;
    case 'order':
      return <SmallerFill />;
    case 'leaveEmpty':
      return <LeaveEmpty onConfirm={onLeaveEmpty} />;
    case 'looks':
    case 'secondBag':
      return null;
  }
};

/** Which screen a person opened beside the one that the record asks for; gone once the record asks for another. */
export const useAside = (place: string) => {
  const [opened, setOpened] = useState<{ aside: Aside; at: string } | null>(null);
  return {
    aside: opened?.at === place ? opened.aside : null,
    open: (aside: Aside) => setOpened({ aside, at: place }),
    back: () => setOpened(null),
  };
};
