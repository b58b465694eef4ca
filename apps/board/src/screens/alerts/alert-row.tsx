import type { WardView } from '@slackwater/contract';
import type { AlertKind } from '@slackwater/domain';
import { stepsUp } from '@slackwater/domain/alert/owner';
import { alertWords } from '@slackwater/domain/alert/words';
import { type EpochMs, minutesBetween } from '@slackwater/domain/time/instant';
import { formatClock, formatMinutes } from '@slackwater/domain/words/numbers';
import { Link } from 'react-router';
import { RANK_WORDS } from '../../components/alert-flag/alert-flag.tsx';
import { AlertOwner } from '../../components/alert-flag/alert-owner.tsx';
import { paths } from '../../paths.ts';
import { cx } from '../../ui/class-names.ts';
import { Mark } from '../../ui/mark.tsx';
import { AlertHands } from './alert-hands.tsx';
import styles from './alert-row.module.css';
import type { Open } from './open-alerts.ts';

type AlertRowProps = {
  open: Open;
  ward: WardView;
  names: ReadonlyMap<string, string>;
  now: EpochMs;
  /** Why the person may do nothing with it; null = they may. */
  mayNot: string | null;
};

const STEP_WORDS = { chargeNurse: 'the charge nurse', physician: 'the physician' } as const;

const raisedUnder = (version: number, inForce: number): string =>
  `Raised under settings version ${version}${version === inForce ? '' : `; ${inForce} is in force now`}.`;

/** Alerts that rest on what is probably inside. */
const ABOUT_INSIDE: readonly AlertKind[] = ['tooMuchInside', 'farTooMuchInside', 'dwellRetained', 'drainShortOften'];

/** One alert: six questions from left to right. */
export const AlertRow = ({ open, ward, names, now, mayNot }: AlertRowProps) => {
  const { alert, row, standing } = open;
  const words = alertWords(alert, ward.policy);
  const clock = (at: EpochMs) => formatClock(at, ward.zone);
  const unheld = alert.rank === 'high' && standing === 'nobody';
  const nextStep = unheld ? stepsUp(alert, ward.policy.settings)[0] : undefined;
  return (
    <li className={cx(styles.alert, styles[alert.rank], unheld && styles.unheld)} data-alert={alert.id}>
      <div className={styles.what}>
        <Mark rank={alert.rank} className={styles.mark} />
        <div>
          <h2>
            <b>{RANK_WORDS[alert.rank]}</b> {words.title}
          </h2>
          <Link to={paths.bedside(row.patient.id)}>
            <b>
              <span className="sr">Bed </span>
              {row.bed}
            </b>{' '}
            {row.patient.family}, {row.patient.given}
          </Link>
        </div>
      </div>
      <p className={styles.since}>
        <b>{clock(alert.since)}</b>
        <span>{formatMinutes(Math.max(0, minutesBetween(alert.since, now)))}</span>
      </p>
      <p className={styles.why}>
        {words.why}{' '}
        {ABOUT_INSIDE.includes(alert.kind) && (
          <Link to={paths.inside(row.patient.id)}>How the figures came about, dwell by dwell</Link>
        )}
        <span>{words.source}</span>
        <span>{raisedUnder(alert.settingsVersion, ward.policy.version)}</span>
      </p>
      <p className={styles.next}>{words.next}</p>
      <p className={styles.owner}>
        {standing === 'nobody' ? (
          <b>Nobody has it</b>
        ) : (
          <AlertOwner alert={alert} standing={standing} names={names} zone={ward.zone} until />
        )}
        {nextStep && (
          <span>
            {nextStep.at > now
              ? `Goes to ${STEP_WORDS[nextStep.to]} at ${clock(nextStep.at)}.`
              : `Goes to ${STEP_WORDS[nextStep.to]}.`}
          </span>
        )}
        {alert.escalatedTo && <span>With {STEP_WORDS[alert.escalatedTo]}.</span>}
      </p>
      <AlertHands open={open} ward={ward} now={now} mayNot={mayNot} />
    </li>
  );
};
