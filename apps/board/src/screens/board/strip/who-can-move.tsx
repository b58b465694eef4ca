import type { WardView } from '@slackwater/contract';
import type { BoardRow } from '@slackwater/domain';
import { HOUR_MS, MINUTE_MS } from '@slackwater/domain/time/instant';
import { clashForecast, type Proposal } from '@slackwater/domain/ward/clash-forecast';
import { formatClock, formatMinutes } from '@slackwater/domain/words/numbers';
import { useMutation } from '@tanstack/react-query';
import { useMemo, useState } from 'react';
import { Link } from 'react-router';
import { draft, sendEntries } from '../../../api/entries.ts';
import { wordsOf } from '../../../api/problems.ts';
import { useMay } from '../../../api/use-session.ts';
import { familyName } from '../../../components/names.ts';
import { useEachMinute } from '../../../live/now.ts';
import { paths } from '../../../paths.ts';
import { Button } from '../../../ui/button.tsx';
import { Dialog } from '../../../ui/dialog.tsx';
import warm from './warm-bags.module.css';
import styles from './who-can-move.module.css';

const AHEAD_MS = 11 * HOUR_MS;
/** Nobody moves a drain of the next minutes, so it is worked out for as long, not for each. */
const STEP_MS = 5 * MINUTE_MS;

/** Who could go first or later where one nurse's drains collide; nothing is moved but by an order. */
const WhoCanMove = ({ rows, ward }: { rows: readonly BoardRow[]; ward: WardView }) => {
  const from = useEachMinute((now) => Math.ceil(now / STEP_MS) * STEP_MS);
  const [open, setOpen] = useState(false);
  const { drainsAtOnce } = ward.policy.settings;
  const { collisions, proposals } = useMemo(
    () => clashForecast(rows, from, from + AHEAD_MS, drainsAtOnce),
    [rows, from, drainsAtOnce],
  );
  const [first] = proposals;
  if (!open && !first) return null;
  return (
    <p>
      {first && (
        <button type="button" className={warm.open} onClick={() => setOpen(true)}>
          <b>Who can move</b> {proposalWords(first, ward.zone)}
        </button>
      )}
      {open && (
        <Dialog title="Who can go first, or later" onClose={() => setOpen(false)}>
          {collisions.map(({ nurse, from, beds }) => (
            <p key={`${nurse.accountId} ${from}`}>
              <b className="nb">{formatClock(from, ward.zone)}</b> beds {beds.join(', ')} fall together for{' '}
              {familyName(nurse.name)}.
            </p>
          ))}
          <ul className={styles.list}>
            {proposals.map((proposal) => (
              <Proposed key={proposal.bed} proposal={proposal} rows={rows} ward={ward} />
            ))}
          </ul>
          <p className="quiet">Proposed within the windows of the prescriptions. Nothing is moved without an order.</p>
          <Button onPress={() => setOpen(false)}>Back</Button>
        </Dialog>
      )}
    </p>
  );
};

export default WhoCanMove;

const proposalWords = ({ bed, dueAt, at }: Proposal, zone: string): string => {
  const apart = formatMinutes(Math.abs(at - dueAt) / MINUTE_MS);
  return `Bed ${bed} may go at ${formatClock(at, zone)}, ${apart} ${at < dueAt ? 'early' : 'late'}, within its window`;
};

type ProposedProps = { proposal: Proposal; rows: readonly BoardRow[]; ward: WardView };

/** A physician orders it here; who takes an order by telephone goes to the form that asks for the read-back. */
const Proposed = ({ proposal, rows, ward }: ProposedProps) => {
  const mayOrder = useMay(ward.id, 'prescribe');
  const mayTakeOrder = useMay(ward.id, 'telephoneOrder');
  const patientId = rows.find(({ bed }) => bed === proposal.bed)?.patient.id ?? null;
  const order = useMutation({
    mutationFn: () => {
      const content = { what: 'dueAt', dueAt: proposal.at } as const;
      return sendEntries(ward.id, [draft('ordered', { content, note: null, telephone: null }, { patientId })]);
    },
  });
  return (
    <li>
      <span>{proposalWords(proposal, ward.zone)}.</span>
      {mayOrder && (
        <Button
          disabledBecause={order.isPending ? 'Sending' : order.isSuccess ? 'Ordered' : null}
          onPress={() => order.mutate()}
        >
          Order {formatClock(proposal.at, ward.zone)}
        </Button>
      )}
      {!mayOrder && mayTakeOrder && patientId && <Link to={paths.prescription(patientId)}>Order by telephone</Link>}
      {order.isError && <b role="alert">{wordsOf(order.error)}</b>}
    </li>
  );
};
