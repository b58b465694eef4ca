import type { BedsideState, WardPolicy } from '@slackwater/domain';
import { bagFor } from '@slackwater/domain/prescription/bag-for';
import { formatMinutes, formatMl } from '@slackwater/domain/words/numbers';
import type { Fact } from '../shared/facts.tsx';

/** What is prescribed, large enough to be read with clean hands held up. */
export const prescribedFacts = (
  state: BedsideState,
  policy: WardPolicy,
  strength: string | undefined,
): readonly Fact[] => {
  const bag = bagFor(state, policy);
  if (!bag || !strength) return [{ term: 'Prescribed', value: 'drain only' }];
  return [
    { term: 'Prescribed', value: strength },
    { term: 'Fill', value: formatMl(bag.fillMl) },
    { term: 'Dwell', value: bag.dwellMinutes === null ? 'by the clock' : formatMinutes(bag.dwellMinutes) },
  ];
};
