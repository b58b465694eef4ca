import { openWorkUp } from '@slackwater/domain/peritonitis/work-up';
import { standingOf } from '@slackwater/domain/peritonitis/work-up-standing';
import { standingWords } from '@slackwater/domain/peritonitis/work-up-words';
import { Link } from 'react-router';
import { paths } from '../../../paths.ts';
import { useBedside } from '../bedside-context.ts';
import { Beside } from '../shared/facts.tsx';

/** The suspected peritonitis that is open, as far as it has come, and the way to its samples and results. */
export const BesideWorkUp = () => {
  const { state, ward, patientId } = useBedside();
  const workUp = openWorkUp(state.workUps);
  if (workUp === null) return null;
  return (
    <Beside title="Suspected peritonitis">
      <p>
        <b>{standingWords(standingOf(workUp, state.comforts), ward.zone)}</b>
      </p>
      <p>
        <Link to={paths.workUp(patientId)}>Sample, results, who was told</Link>
      </p>
    </Beside>
  );
};
