import { fluidTakenOver } from '@slackwater/domain/cavity/fluid-handover';
import { stayEmptyOf, stayEmptyWords } from '@slackwater/domain/prescription/stay-empty';
import { Link } from 'react-router';
import { paths } from '../../../paths.ts';
import { fluidFacts } from '../../patient-record/words/fluid-words.ts';
import { useBedside } from '../bedside-context.ts';
import { Beside, Facts, Source } from '../shared/facts.tsx';

/** An order to be empty for theatre or imaging, in sight while anything is done at this bed. */
export const BesideStayEmpty = () => {
  const { state, clock, patientId } = useBedside();
  const order = stayEmptyOf(state);
  if (order === null) return null;
  return (
    <Beside title="By order">
      <p>
        <b>{stayEmptyWords(order, state.cavity, clock)}</b>
        {order.away && ` (${order.away.why})`}
      </p>
      <p>
        <Link to={paths.observations(patientId)}>Leaves the ward, or comes back</Link>
      </p>
    </Beside>
  );
};

/** The fluid that came along from another ward, as it was told there; gone once it is drained. */
export const BesideHandedOver = () => {
  const { state, clock, policy } = useBedside();
  const taken = fluidTakenOver(state);
  if (taken === null) return null;
  const { handover, changedSince } = taken;
  return (
    <Beside title={`Handed over ${clock(handover.at)} to ${handover.toWhom}`}>
      <Facts facts={fluidFacts(handover.said, { clock, formulary: policy.formulary })} />
      {changedSince && (
        <Source>
          <b>Changed in the record since it was told.</b>
        </Source>
      )}
    </Beside>
  );
};
