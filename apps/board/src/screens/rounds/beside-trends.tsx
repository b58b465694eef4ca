import type { RoundsView } from '@slackwater/contract';
import { removedWords } from '@slackwater/domain/balance/words';
import { itemWords } from '@slackwater/domain/prescription/changes';
import { formatDate, formatWhole } from '@slackwater/domain/words/numbers';
import { Link } from 'react-router';
import { paths } from '../../paths.ts';
import { insideWords } from '../bedside/model/words.ts';
import type { PatientContext } from '../bedside/shared/use-patient.ts';
import { day } from './day-words.ts';
import styles from './rounds.module.css';
import type { DayPoint } from './series.ts';

type BesideTrendsProps = {
  patient: PatientContext;
  points: readonly DayPoint[];
  bloodPressures: RoundsView['bloodPressures'];
};

/** What stands beside the trends: the prescription, the estimate, blood pressures, the last seven ward days. */
export const BesideTrends = ({ patient, points, bloodPressures }: BesideTrendsProps) => {
  const { state, policy, ward, clock, patientId } = patient;
  return (
    <aside className={styles.side} aria-label="Beside the trends">
      <section>
        <h2>Prescription in force{state.prescription && `, revision ${state.prescription.number}`}</h2>
        {state.prescription ? (
          state.prescription.items.map((item) => <p key={item.id}>{itemWords(item, policy.formulary)}</p>)
        ) : (
          <p>Nothing is prescribed.</p>
        )}
        <p>
          <Link to={paths.prescription(patientId)}>
            <u>To the prescription</u>
          </Link>
        </p>
      </section>
      <section>
        <h2>Probably inside, as the last drain left it</h2>
        <p>{insideWords(state.inside)}</p>
        <p className="quiet">An estimate from the ward’s table for adults, not a measurement.</p>
      </section>
      <section>
        <h2>Blood pressure</h2>
        {bloodPressures.length === 0 && <p>None in these days.</p>}
        {bloodPressures.slice(-5).map((one) => (
          <p key={one.at}>
            {formatDate(one.at, ward.zone)} {clock(one.at)}: <b>{`${one.systolicMmHg}/${one.diastolicMmHg}`} mmHg</b>
          </p>
        ))}
      </section>
      <table className={styles.table}>
        <caption>Last seven ward days, mL and kg</caption>
        <thead>
          <tr>
            <th scope="col">Ward day</th>
            <th scope="col">Net</th>
            <th scope="col">Other</th>
            <th scope="col">kg</th>
          </tr>
        </thead>
        <tbody>
          {points
            .slice(-7)
            .reverse()
            .map((point) => (
              <tr key={point.date}>
                <td>{day(point.date)}</td>
                <td>{point.removedMl === null ? (point.missing ?? 'missing') : removedWords(point.removedMl)}</td>
                <td>{point.otherMl === null ? 'not recorded' : otherWords(point.otherMl)}</td>
                <td>{point.weightKg ?? 'not weighed'}</td>
              </tr>
            ))}
        </tbody>
      </table>
    </aside>
  );
};

const otherWords = (ml: number): string => (ml === 0 ? 'net 0' : `${formatWhole(ml)} ${ml > 0 ? 'in' : 'out'}`);
