import type { Payloads } from '@slackwater/domain';
import { findingsOfExitSite } from '@slackwater/domain/effluent/finding';
import { EXIT_SITE_SCORE_SENSITIVITY_PERCENT, exitSiteFinding } from '@slackwater/domain/peritonitis/exit-site';
import { newId } from '../../api/ids.ts';
import { useDraft } from '../../drafts/use-draft.ts';
import { Choice } from '../../ui/choice.tsx';
import { Field } from '../../ui/field.tsx';
import { Responses } from '../bedside/shared/responses.tsx';
import { Tick } from '../bedside/shared/tick.tsx';
import { Card } from './card.tsx';
import type { Observing } from './observe-context.ts';
import { NOBODY_TOLD, ToldFields, toldMissing, toldOf } from './told-fields.tsx';

type Sign = 0 | 1 | 2;
const SIGNS = ['swelling', 'crust', 'redness', 'pain', 'drainage'] as const;
type Signs = Record<(typeof SIGNS)[number], Sign | null>;
const NOT_LOOKED_AT: Signs = { swelling: null, crust: null, redness: null, pain: null, drainage: null };

const siteOf = (signs: Signs, pus: boolean): Omit<Payloads['exitSite'], 'note'> | null => {
  const { swelling, crust, redness, pain, drainage } = signs;
  if (swelling === null || crust === null || redness === null || pain === null || drainage === null) return null;
  return { pus, swelling, crust, redness, pain, drainage };
};

/** The exit site, sign by sign: none is taken for granted. A low score does not exclude an infection. */
export const ExitSiteCard = ({ observing }: { observing: Observing }) => {
  const { patient, keepAll, at } = observing;
  const { policy, state, clock, patientId } = patient;
  const [draft, setDraft, forget] = useDraft(`exit-site-signs:${patientId}`, {
    ...NOT_LOOKED_AT,
    ...NOBODY_TOLD,
    pus: false,
    done: [] as readonly string[],
    note: '',
  });
  const change = (part: Partial<typeof draft>) => setDraft({ ...draft, ...part });
  const site = siteOf(draft, draft.pus);
  const score = site && exitSiteFinding(site).value;
  const findings = site ? findingsOfExitSite(site) : [];
  // Who was told is asked for, and kept, only of something found.
  const toldDraft = findings.length > 0 ? draft : NOBODY_TOLD;
  const last = state.exitSite;
  const open = SIGNS.filter((sign) => draft[sign] === null);
  return (
    <Card
      observing={observing}
      title="Exit site"
      last={last && `${last.pus ? 'pus, ' : ''}score ${exitSiteFinding(last).value?.score} of 10, ${clock(last.at)}`}
      action={score ? `Keep: score ${score.score} of 10` : 'Keep the exit site'}
      missing={open.length > 0 ? `missing: ${open.join(', ')}` : toldMissing(toldDraft)}
      onKeep={async () => {
        if (site === null) return;
        const id = newId();
        const done = draft.done.length > 0 ? `Done: ${draft.done.join('; ')}.` : null;
        const note = [draft.note.trim() || null, done].filter((one) => one !== null).join(' ') || null;
        const told = toldOf(toldDraft, at(), 'exit site', findings[0] ? { finding: findings[0], cause: id } : null);
        if (await keepAll([{ kind: 'exitSite', payload: { ...site, note }, id }, ...told])) forget();
      }}
    >
      {SIGNS.map((sign) => (
        <Choice
          key={sign}
          label={sign[0]?.toUpperCase() + sign.slice(1)}
          value={draft[sign]}
          onChange={(value) => change({ [sign]: value })}
          options={[
            { value: 0 as Sign, label: 'None' },
            { value: 1 as Sign, label: 'Some' },
            { value: 2 as Sign, label: 'Marked' },
          ]}
        />
      ))}
      <Tick checked={draft.pus} onChange={(pus) => change({ pus })}>
        Pus
      </Tick>
      {score?.finding === 'notExcluded' && (
        <p role="status">
          <b>Score {score.score} of 10: an infection is not excluded.</b> The score finds{' '}
          {EXIT_SITE_SCORE_SENSITIVITY_PERCENT} of 100 (Clin Nephrol 2014;81:100).
        </p>
      )}
      <Responses findings={findings} policy={policy} done={draft.done} onDone={(done) => change({ done })} />
      {findings.length > 0 && <ToldFields draft={draft} onChange={change} />}
      <Field label="In words" value={draft.note} onChange={(note) => change({ note })} maxLength={1000} />
    </Card>
  );
};
