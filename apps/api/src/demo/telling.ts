import type { EpochMs, PrescriptionItem, WardPolicy } from '@slackwater/domain';
import type { Chance } from './chance.ts';
import type { Diary } from './diary.ts';
import type { Person } from './exchanges.ts';
import type { ScenarioItem, ScenarioPatient } from './scenario.ts';

export type StoryContext = {
  now: EpochMs;
  policy: WardPolicy;
  /** Logins of those who admit, prescribe and assign. */
  chargeNurse: string;
  nephrologist: string;
};

/** One patient's story while it is being told. */
export type Telling = StoryContext & {
  patient: ScenarioPatient;
  book: Diary;
  random: Chance;
  person: Person;
  items: readonly PrescriptionItem[];
  revisionId: string;
  admittedAt: EpochMs;
};

/** The prescribed item `index`, counted round the day. */
export const itemOf = ({ items, patient }: Telling, index: number) => {
  const at = index % items.length;
  const item = items[at] as PrescriptionItem;
  return { id: item.id, index: at, of: patient.items[at] as ScenarioItem };
};
