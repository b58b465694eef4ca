import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Additive, DwellRule } from '@slackwater/domain';

/** How a patient stands at the instant of seeding, relative to it. `item` is the one inside, by index. */
export type StandingNow =
  | { is: 'dwelling'; dueInMinutes: number; item: number; lastDrainShortByMl?: number }
  | { is: 'dwellingByClock'; missingDrainBack?: number }
  | {
      is: 'preparing' | 'connected' | 'draining' | 'drained' | 'drainedCloudy' | 'filling';
      sinceMinutes: number;
      item: number;
    }
  | { is: 'empty'; sinceMinutes: number; nextFillInMinutes: number; item: number }
  | { is: 'holdEmpty'; sinceMinutes: number; reason: string; reviewInHours: number }
  | { is: 'holdWithFluid'; dueInMinutes: number; item: number; reason: string; reviewInHours: number }
  | { is: 'offWardWithFluid'; dueInMinutes: number; item: number; where: string; backInMinutes: number }
  | { is: 'admittedUnknown'; sinceMinutes: number };

export type ScenarioItem = {
  solutionId: string;
  fillMl: number;
  dwell: DwellRule;
  /** What goes into this bag; left out where nothing does. */
  additives?: readonly Additive[];
};

export type ScenarioPatient = {
  bed: string;
  family: string;
  given: string;
  dateOfBirth: string;
  gender: string;
  hospitalNumber: string;
  weightKg: number;
  /** Login of the nurse of this shift. */
  nurse: string;
  allergy: string | null;
  isolation: string | null;
  cautions: readonly string[];
  mostInsideMl: number | null;
  acute: boolean;
  admittedDaysAgo?: number;
  /** A drain so long ago was cloudy, and it was peritonitis. */
  peritonitisDaysAgo?: number;
  items: readonly ScenarioItem[];
  now: StandingNow;
};

export type Scenario = {
  site: { id: string; name: string };
  ward: { id: string; name: string; zone: string; shiftStarts: readonly string[]; beds: readonly string[] };
  staff: readonly {
    login: string;
    name: string;
    role: 'nurse' | 'chargeNurse' | 'nephrologist' | 'manager' | 'wall';
  }[];
  patients: readonly ScenarioPatient[];
};

/** The invented ward as it stands in `shared/scenario/`. */
export async function loadScenario(): Promise<Scenario> {
  const file = join(import.meta.dirname, '../../../../shared/scenario/kestrel-ward.json');
  return JSON.parse(await readFile(file, 'utf8')) as Scenario;
}
