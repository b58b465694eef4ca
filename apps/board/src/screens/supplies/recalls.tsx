import type { WardView } from '@slackwater/contract';
import type { LotRecall } from '@slackwater/domain';
import { solutionOf } from '@slackwater/domain/solution/formulary';
import { lotProblem } from '@slackwater/domain/solution/label/lot';
import { formatClock, formatDate } from '@slackwater/domain/words/numbers';
import { useState } from 'react';
import { Button } from '../../ui/button.tsx';
import { Field } from '../../ui/field.tsx';
import { Select } from '../../ui/select.tsx';
import { Table } from '../../ui/table.tsx';
import styles from './supplies.module.css';
import { useSupplyChange } from './use-supply-change.ts';
import { WithReason } from './with-reason.tsx';

const EMPTY = { lot: '', of: '', reason: '' };

/** Lots that are not to be used. A recall holds at once on every ward of the hospital. */
export const Recalls = ({ ward, mayNot }: { ward: WardView; mayNot: string | null }) => {
  const { formulary, supplies } = ward.policy;
  const { change, pending, trouble } = useSupplyChange(ward.id);
  const [typed, setTyped] = useState(EMPTY);
  const [ending, setEnding] = useState<LotRecall | null>(null);
  const lot = typed.lot.trim();
  const wrongLot = lot === '' ? null : (lotProblem('lot', lot)?.message ?? null);
  const missing = [lot ? '' : 'the lot', typed.of ? '' : 'of what', typed.reason.trim() ? '' : 'the reason'].filter(
    Boolean,
  );
  const recall = async () => {
    const [kind, id = ''] = typed.of.split('/');
    const of = kind === 'product' ? { gtin: id } : { solutionId: id };
    if (await change({ what: 'lotRecalled', lot, of, reason: typed.reason.trim() })) setTyped(EMPTY);
  };
  const words = (of: LotRecall['of']) =>
    'gtin' in of ? `product ${of.gtin}` : (solutionOf(formulary, of.solutionId)?.strength ?? of.solutionId);
  const when = (at: number) => `${formatDate(at, ward.zone)} ${formatClock(at, ward.zone)}`;
  const cannot =
    mayNot ??
    (pending
      ? 'being sent'
      : wrongLot
        ? 'the lot cannot be one'
        : missing.length
          ? `${missing.join(', ')} missing`
          : null);
  return (
    <section aria-label="Recalls">
      <h2>Recalled lots</h2>
      <form
        className={styles.row}
        onSubmit={(event) => {
          event.preventDefault();
          if (cannot === null) void recall();
        }}
      >
        <Field
          label="Lot"
          value={typed.lot}
          onChange={(next) => setTyped({ ...typed, lot: next })}
          autoComplete="off"
          maxLength={60}
          problem={wrongLot ?? trouble}
        />
        <Select
          label="Of which bag"
          value={typed.of}
          onChange={(of) => setTyped({ ...typed, of })}
          options={[
            ...formulary.map(({ id, strength }) => ({ value: `solution/${id}`, label: `${strength}, every size` })),
            ...supplies.products.map(({ gtin }) => ({ value: `product/${gtin}`, label: gtin })),
          ]}
        />
        <Field
          label="Reason, in words"
          value={typed.reason}
          onChange={(reason) => setTyped({ ...typed, reason })}
          maxLength={500}
        />
        <Button type="submit" tone="firm" disabledBecause={cannot}>
          Recall this lot
        </Button>
      </form>
      {supplies.recalls.length === 0 ? (
        <p>No lot is recalled.</p>
      ) : (
        <Table
          rows={supplies.recalls.toReversed()}
          keyOf={({ id }) => id}
          columns={[
            { head: 'Lot', of: ({ lot }) => lot, className: 'mono nb' },
            { head: 'Of', of: ({ of }) => words(of) },
            { head: 'Reason', of: ({ reason }) => reason },
            {
              head: 'Recalled',
              of: ({ since, ended }) =>
                `since ${when(since)}${ended ? `, ended ${when(ended.at)}: ${ended.reason}` : ''}`,
            },
            {
              head: 'End it',
              hideHead: true,
              of: (recalled) =>
                mayNot === null && !recalled.ended ? (
                  <Button tone="text" onPress={() => setEnding(recalled)}>
                    End it<span className="sr">: lot {recalled.lot}</span>
                  </Button>
                ) : null,
            },
          ]}
        />
      )}
      {ending && (
        <WithReason
          title={`End the recall of lot ${ending.lot}?`}
          action="End it: the lot may be used"
          pending={pending}
          trouble={trouble}
          onClose={() => setEnding(null)}
          onAct={async (reason) => {
            if (await change({ what: 'recallEnded', recallId: ending.id, reason })) setEnding(null);
          }}
        />
      )}
    </section>
  );
};
