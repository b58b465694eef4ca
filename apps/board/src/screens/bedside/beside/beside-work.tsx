import { balanceWords } from '@slackwater/domain/balance/words';
import { additivesWords } from '@slackwater/domain/prescription/additive-words';
import { bagFor } from '@slackwater/domain/prescription/bag-for';
import { solutionOf } from '@slackwater/domain/solution/formulary';
import { formatIsoDate, formatMinutes, formatMl } from '@slackwater/domain/words/numbers';
import { Link } from 'react-router';
import { useMinute } from '../../../live/now.ts';
import { paths } from '../../../paths.ts';
import { useBedside } from '../bedside-context.ts';
import { expectedBack } from '../model/expected-back.ts';
import { bandWords, expectedWords, rangeWords } from '../model/expected-out.ts';
import type { Place } from '../model/place.ts';
import { usualDrain } from '../model/usual.ts';
import { insideWords } from '../model/words.ts';
import { Beside, Facts, Source } from '../shared/facts.tsx';
import { useLearned } from '../shared/use-learned.ts';
import { FiveDwells } from './five-dwells.tsx';

/** What stands beside the work: what to expect before, the last five dwells, the bag on the pole, the visit at the end. */
export const BesideWork = ({ place }: { place: Place }) => {
  switch (place) {
    case 'prepare':
      return (
        <>
          <Expect />
          <FiveDwells />
        </>
      );
    case 'fill':
    case 'fillReady':
      return <OnThePole />;
    case 'finish':
      return (
        <>
          <ThisVisit />
          <FiveDwells />
        </>
      );
    default:
      return <FiveDwells />;
  }
};

const Expect = () => {
  const { state, policy, clock, patientId } = useBedside();
  const back = expectedBack(state, policy, useMinute(), useLearned(patientId));
  const usual = usualDrain(state.lastDwells);
  return (
    <>
      <Beside title="At hand">
        <p>Set, cap, masks for everyone in the room. Door shut.</p>
        <p>
          <Link to={`${paths.record(patientId)}?missed`}>Enter a missed exchange</Link>
        </p>
        {state.cautions.diabetes === null && (
          <p>
            Diabetes: nobody was asked. <Link to={paths.observations(patientId)}>Say yes or no</Link>
          </p>
        )}
      </Beside>
      <Beside title="What to expect">
        <Facts
          facts={[
            back
              ? {
                  term: `Inside now, went in ${clock(back.filledAt)}`,
                  value: `${formatMl(back.inMl)} of ${back.strength ?? 'unknown strength'}`,
                }
              : { term: 'Inside now', value: state.cavity.state === 'empty' ? 'empty' : 'not known' },
            ...(back?.out
              ? [
                  {
                    term: `Drain, ${formatMinutes(back.dwellMinutes)} of ${back.strength ?? 'this'}`,
                    value: `${expectedWords(back.out)} expected`,
                    detail: bandWords(back.out),
                  },
                ]
              : []),
            ...(usual
              ? [{ term: `Time, the last ${usual.of}`, value: `${usual.minutes} min, ${usual.least} to ${usual.most}` }]
              : []),
          ]}
        />
        {back?.out && <Source>{rangeWords(back.out.by)}</Source>}
      </Beside>
    </>
  );
};

const OnThePole = () => {
  const { state, policy } = useBedside();
  const bag = state.visit?.fill?.bag ?? state.visit?.bag ?? null;
  const solution = solutionOf(policy.formulary, bag?.solutionId ?? null);
  const added = state.visit?.fill?.additives ?? bagFor(state, policy)?.additives ?? [];
  return (
    <>
      <Beside title="The bag on the pole">
        <Facts
          facts={[
            { term: 'Solution', value: solution?.strength ?? 'none checked' },
            { term: 'Amount', value: bag ? formatMl(bag.labelledMl) : 'none' },
            { term: 'Expiry', value: bag?.expiresOn ? formatIsoDate(bag.expiresOn) : 'read by eye' },
            { term: 'Lot', value: bag?.lot ?? 'not recorded' },
            ...(added.length > 0 ? [{ term: 'Additives', value: additivesWords(added) }] : []),
          ]}
        />
      </Beside>
      <Beside title="Probably inside before it">
        <p>
          <b>{insideWords(state.inside)}</b>
        </p>
        <Source>An estimate from the ward’s table for adults, not a measurement.</Source>
      </Beside>
      <Beside title="If it runs slowly">
        <p>Slow is over {policy.settings.slowFillMinutes} min for 2,000 mL. Judge the flow, millilitres a minute.</p>
        <Source>Common practice.</Source>
      </Beside>
    </>
  );
};

const ThisVisit = () => {
  const { state, ward, clock, policy } = useBedside();
  const visit = state.lastVisit;
  if (!visit) return null;
  const fills = state.cavity.state === 'holding' ? state.cavity.fills.filter((fill) => fill.visitId === visit.id) : [];
  return (
    <Beside title="This exchange">
      <Facts
        facts={[
          ...visit.drains.map((drain, index) => ({
            term: `Drain ${visit.drains.length > 1 ? `${index + 1}, ` : ''}${clock(drain.startedAt)}${drain.endedAt ? ` to ${clock(drain.endedAt)}` : ''}`,
            value: drain.drainedMl === null ? 'no volume' : formatMl(drain.drainedMl),
          })),
          ...fills.map((fill) => ({
            term: `Fill${fill.endedAt ? `, in at ${clock(fill.endedAt)}` : ''}`,
            value: `${fill.filledMl === null ? 'volume not known' : formatMl(fill.filledMl)} of ${solutionOf(policy.formulary, fill.solutionId)?.strength ?? 'unknown'}`,
          })),
          { term: `Ward day from ${clock(state.day.from)}`, value: balanceWords(state.day, ward.zone) },
          { term: 'Probably left before the fill', value: insideWords(state.inside) },
        ]}
      />
    </Beside>
  );
};
