import { type Computed, computed, unlessRefused } from '../units/computed.ts';
import { checkNumbers, type Range } from '../units/ranges.ts';

type Sign = 0 | 1 | 2;

/** How an exit site looks, sign by sign; 0 = none of it. */
export type ExitSite = { pus: boolean; swelling: Sign; crust: Sign; redness: Sign; pain: Sign; drainage: Sign };

export type ExitSiteFinding = {
  /** 0 to 10 */
  score: number;
  /** A low score does not exclude infection, so there is no "not infected". */
  finding: 'infection' | 'notExcluded';
  because: 'pus' | 'score' | null;
};

/** From this score on it is an infection (from memory; a setting). */
const EXIT_SITE_INFECTION_SCORE = 4;

/** How often a true infection reached that score. Clin Nephrol 2014;81:100. */
export const EXIT_SITE_SCORE_SENSITIVITY_PERCENT = 64;

const POINTS: Range = { least: 0, most: 2, unit: 'points', whole: true };

/**
 * Score of an exit site: swelling, crust, redness, pain, drainage, 0 to 2 each. Pus alone, or 4 and more, is an
 * infection (ISPD 2023 as summarised; score from memory).
 */
export const exitSiteFinding = (site: ExitSite): Computed<ExitSiteFinding> =>
  unlessRefused(
    checkNumbers(site, { swelling: POINTS, crust: POINTS, redness: POINTS, pain: POINTS, drainage: POINTS }),
    () => {
      const score = site.swelling + site.crust + site.redness + site.pain + site.drainage;
      const because = site.pus ? 'pus' : score >= EXIT_SITE_INFECTION_SCORE ? 'score' : null;
      return computed<ExitSiteFinding>({ score, finding: because ? 'infection' : 'notExcluded', because });
    },
  );
