import { newestDwell } from '../bedside/fluid.ts';
import type { BedsideState } from '../bedside/state.ts';
import type { Dwell } from '../dwell/dwell.ts';
import { shortfall } from '../dwell/short-drain.ts';
import { findingsOfComfort } from '../effluent/finding.ts';
import { isNewCatheter } from '../peritonitis/new-catheter.ts';
import type { EpochMs } from '../time/instant.ts';
import type { WardPolicy } from '../ward/policy.ts';
import type { WardSettings } from '../ward/settings.ts';

/** What speaks against a fill whatever the volumes say: `no` stops it, `ask` asks first. */
export type Objection = { offer: 'no' | 'ask'; why: string };

/**
 * What patient and effluent say against a fill, since the newest dwell was filled: a short drain with breathlessness is
 * a pleural leak until excluded (do not fill, sit up, call); sudden “urine” or watery stool with a new catheter may be
 * bladder or bowel; brown or green effluent is bowel or bile. Breathlessness alone, a leak or a swelling asks first.
 * (Common practice; bowel: teaching text; bile: from memory.)
 * @returns the gravest; null = nothing speaks against it
 */
export function objectionToFill(state: BedsideState, { settings }: Pick<WardPolicy, 'settings'>): Objection | null {
  const dwell = newestDwell(state);
  const from = dwell === null ? (state.stay?.admittedAt ?? 0) : begun(dwell);
  const said = state.comforts.filter(({ at }) => at >= from);
  const found = new Set(said.flatMap(({ comfort }) => findingsOfComfort(comfort, settings)));
  const sudden = found.has('suddenUrine') || found.has('wateryStool');
  const last = said[0]?.at ?? from;

  if (sudden && isNewCatheter(state.catheterInsertedAt, last, settings)) {
    return no(
      'Sudden “urine” or watery stool with a new catheter: bladder or bowel until excluded. Stop, keep it, call.',
    );
  }
  const looks = dwell?.drains.flatMap(({ appearance }) => appearance) ?? [];
  if (looks.includes('brown') || looks.includes('green')) {
    return no('The drain looks of bowel or bile, an emergency: keep the bag, call.');
  }
  if (found.has('breathless')) {
    return isShort(dwell, settings)
      ? no('A short drain with breathlessness: a leak into the chest until excluded. Sit the patient up, call.')
      : { offer: 'ask', why: 'The patient was breathless: sit up, call. Is the leak into the chest excluded?' };
  }
  if (found.has('leakAtExit') || found.has('swelling')) {
    return { offer: 'ask', why: 'A leak or swelling was found: what did the physician say?' };
  }
  return null;
}

const no = (why: string): Objection => ({ offer: 'no', why });

const begun = ({ fills, drains }: Dwell): EpochMs =>
  fills[0]?.startedAt ?? fills[0]?.endedAt ?? drains[0]?.startedAt ?? 0;

const isShort = (dwell: Dwell | null, settings: WardSettings): boolean => {
  if (dwell === null || dwell.filledMl === null || dwell.drainedMl === null) return false;
  const { filledMl, drainedMl, expectedUfMl } = dwell;
  return shortfall({ filledMl, drainedMl, expectedUfMl }, settings) !== null;
};
