import type { BedsideState } from '../bedside/state.ts';
import { causeOfComfort, FINDINGS, type Finding, findingsOfComfort } from '../effluent/finding.ts';
import { nextWords, RESPONSES } from '../effluent/responses.ts';
import { EXIT_SITE_SCORE_SENSITIVITY_PERCENT, exitSiteFinding } from '../peritonitis/exit-site.ts';
import { isNewCatheter } from '../peritonitis/new-catheter.ts';
import type { SaidComfort } from '../peritonitis/work-up.ts';
import type { WardPolicy } from '../ward/policy.ts';
import type { AlertRank } from './alert.ts';
import { clockOf, textOf } from './fact-words.ts';
import type { AlertRule, Facts, Span } from './rule.ts';

const BY_A_PERSON = 'A person clears it with a reason; feeling better later does not.';

/** What was said in this stay, oldest first. */
const saidInStay = ({ comforts, stay }: BedsideState): readonly SaidComfort[] =>
  comforts.filter(({ at }) => stay !== null && at >= stay.admittedAt).toReversed();

type RankOf = (finding: Finding, said: SaidComfort) => AlertRank;

/** Spans from what was said of comfort: one a cause, of the gravest rank, since it was first said. */
function spansOfSaid(
  state: BedsideState,
  findings: readonly Finding[],
  severePainFrom: number,
  rankOf: RankOf,
): readonly Span[] {
  const byCause = new Map<string, Span>();
  for (const said of saidInStay(state)) {
    const found = findingsOfComfort(said.comfort, { severePainFrom }).filter((one) => findings.includes(one));
    if (found.length === 0) continue;
    // One alert for a visit's drain, one for its fill, one for each word between visits.
    const cause = causeOfComfort(said.entryId, said.visitId, said.when);
    const rank = found.some((one) => rankOf(one, said) === 'high') ? 'high' : 'medium';
    const before = byCause.get(cause);
    if (before?.rank === 'high' || (before !== undefined && rank === 'medium')) continue;
    const facts = {
      saidAt: said.at,
      when: said.when,
      findings: found.join(', '),
      pain: said.comfort.pain,
      where: said.comfort.swellingAt?.join(', ') ?? null,
    };
    byCause.set(cause, { cause, rank, since: before?.since ?? said.at, until: null, facts });
  }
  return [...byCause.values()];
}

const WHEN: Readonly<Record<string, string>> = {
  drain: 'at the drain',
  fill: 'at the fill',
  between: 'between exchanges',
};

const said = (facts: Facts, policy: WardPolicy): string =>
  `Said at ${clockOf(facts.saidAt, policy)}, ${WHEN[textOf(facts.when)] ?? 'at a time not known'}`;

const foundIn = ({ findings }: Facts): readonly Finding[] => {
  const named = textOf(findings).split(', ');
  return FINDINGS.filter((finding) => named.includes(finding));
};

/** What follows from all that was found; where that is not known, from what the alert is for. */
const nextOf =
  (usual: Finding): AlertRule['next'] =>
  (facts, policy) => {
    const found = foundIn(facts);
    return (found.length > 0 ? found : [usual]).map((finding) => nextWords(finding, policy)).join(' ');
  };

export const breathless: AlertRule = {
  // High whatever the drain brought: with a short one it is a leak into the chest until excluded.
  spans: (state) => spansOfSaid(state, ['breathless'], Number.POSITIVE_INFINITY, () => 'high'),
  staysUntilCleared: true,
  ranks: ['high'],
  when: 'The patient is breathless, at an exchange or between.',
  ends: BY_A_PERSON,
  settings: [],
  why: (facts, policy) => `${said(facts, policy)}: breathless.`,
  next: (_facts, policy) => nextWords('breathless', policy),
  source: RESPONSES.breathless.source,
};

export const suddenOutflow: AlertRule = {
  spans: (state, { settings }) =>
    spansOfSaid(state, ['suddenUrine', 'wateryStool'], Number.POSITIVE_INFINITY, (_finding, { at }) =>
      isNewCatheter(state.catheterInsertedAt, at, settings) ? 'high' : 'medium',
    ).map((span) => ({ ...span, facts: { ...span.facts, insertedAt: state.catheterInsertedAt } })),
  staysUntilCleared: true,
  ranks: ['high', 'medium'],
  when: 'Sudden “urine” or watery stool as fluid runs in; high while the catheter is new, or of an age not known.',
  ends: BY_A_PERSON,
  settings: ['newCatheterDays'],
  why: (facts, policy) =>
    `${said(facts, policy)}: ${foundIn(facts).includes('suddenUrine') ? 'sudden “urine”' : 'watery stool'}. ` +
    (typeof facts.insertedAt === 'number'
      ? `The catheter is new for ${policy.settings.newCatheterDays} days.`
      : 'When the catheter was put in is not known.'),
  next: nextOf('wateryStool'),
  source: RESPONSES.wateryStool.source,
};

export const painToCall: AlertRule = {
  spans: (state, { settings }) =>
    spansOfSaid(state, ['severePain', 'newOrConstantPain'], settings.severePainFrom, (finding) =>
      finding === 'severePain' ? 'high' : 'medium',
    ),
  staysUntilCleared: true,
  ranks: ['high', 'medium'],
  when: 'Pain is severe (high), or new or constant (medium).',
  ends: BY_A_PERSON,
  settings: ['severePainFrom'],
  why: (facts, policy) =>
    `${said(facts, policy)}: pain ${textOf(facts.pain)} of 10${foundIn(facts).includes('newOrConstantPain') ? ', new or constant' : ''}.`,
  next: nextOf('newOrConstantPain'),
  source: `Severe pain is called: ${RESPONSES.severePain.source} What is severe: ward setting, common practice.`,
};

export const leakOrSwelling: AlertRule = {
  spans: (state) => spansOfSaid(state, ['leakAtExit', 'swelling'], Number.POSITIVE_INFINITY, () => 'medium'),
  staysUntilCleared: true,
  ranks: ['medium'],
  when: 'The exit leaks, or flank, genitals or a hernia swell.',
  ends: BY_A_PERSON,
  settings: [],
  why: (facts, policy) => {
    const found = foundIn(facts);
    const what = [
      found.includes('leakAtExit') ? 'a leak at the exit' : null,
      found.includes('swelling') ? `swelling${facts.where === null ? '' : `: ${textOf(facts.where)}`}` : null,
    ].filter((one) => one !== null);
    return `${said(facts, policy)}: ${what.join(', ')}.`;
  },
  next: nextOf('leakAtExit'),
  source: RESPONSES.leakAtExit.source,
};

/** One alert a look, until a person clears it. */
export const exitSiteInfection: AlertRule = {
  spans: ({ exitSite, stay }) => {
    if (exitSite === null || stay === null || exitSite.at < stay.admittedAt) return [];
    const found = exitSiteFinding(exitSite).value;
    if (found?.finding !== 'infection') return [];
    const facts = { lookedAt: exitSite.at, score: found.score, because: found.because };
    return [{ cause: exitSite.entryId, rank: 'medium' as const, since: exitSite.at, until: null, facts }];
  },
  staysUntilCleared: true,
  ranks: ['medium'],
  when: 'The exit site shows pus, or scores 4 and more of 10.',
  ends: 'A person clears it with a reason.',
  settings: [],
  why: (facts, policy) =>
    `Looked at ${clockOf(facts.lookedAt, policy)}: ${facts.because === 'pus' ? 'pus' : 'no pus'}, score ${textOf(facts.score)} of 10. ` +
    `A score under 4 would not exclude one: sensitivity ${EXIT_SITE_SCORE_SENSITIVITY_PERCENT} %.`,
  next: (_facts, policy) => nextWords('exitSiteInfection', policy),
  source: `${RESPONSES.exitSiteInfection.source} Sensitivity: Clin Nephrol 2014;81:100.`,
};
