import { additivesWords } from '@slackwater/domain/prescription/additive-words';
import { bagFor } from '@slackwater/domain/prescription/bag-for';
import { solutionOf } from '@slackwater/domain/solution/formulary';
import { formatDate, formatMinutes, formatMl } from '@slackwater/domain/words/numbers';
import { PrescribedStrip } from '../../components/prescribed-strip.tsx';
import { useBedside } from './bedside-context.ts';

/** What is prescribed, always in sight: the bag of the fill that runs, else the next one. */
export const Prescribed = () => {
  const { state, policy, ward, clock } = useBedside();
  const { prescription, visit } = state;
  const bag = bagFor(state, policy);
  const fill = visit?.fill ?? null;
  const solution = solutionOf(policy.formulary, fill?.bag.solutionId ?? bag?.solutionId ?? null);
  const order = state.orders.find((one) => one.id === (fill ? fill.orderId : bag?.orderId));
  const source = order
    ? { what: order.telephone ? 'order by telephone' : 'order', at: order.givenAt }
    : prescription && { what: `revision ${prescription.number}`, at: prescription.prescribedAt };
  const rest = solution ? solution.label.replace(solution.strength, '').trim() : '';
  const limitMl = prescription?.limits.mostInsideMl ?? null;
  const dwell = bag?.dwellMinutes ?? null;
  return (
    <PrescribedStrip
      source={
        source ? (
          <>
            {source.what},{' '}
            <span className="nb">
              {formatDate(source.at, ward.zone)} {clock(source.at)}
            </span>
          </>
        ) : (
          'nothing in force'
        )
      }
      cells={[
        {
          term: fill ? 'This bag' : 'Next bag',
          value: solution?.strength ?? (state.hold ? 'on hold' : 'none'),
          detail:
            state.hold && !fill
              ? state.hold.reason
              : [rest, additivesWords(fill?.additives ?? bag?.additives ?? [])].filter(Boolean).join(', '),
        },
        { term: 'Fill', value: fill ? formatMl(fill.prescribedMl) : bag ? formatMl(bag.fillMl) : 'none' },
        {
          term: 'Dwell',
          value: bag ? (dwell === null ? 'by the clock' : dwell === 0 ? 'rinse' : formatMinutes(dwell)) : 'none',
        },
        { term: 'Most inside', value: limitMl === null ? 'not set' : formatMl(limitMl) },
      ]}
    />
  );
};
