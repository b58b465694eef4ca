import { useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { draft, sendEntries } from '../../../../api/entries.ts';
import { wordsOf } from '../../../../api/problems.ts';
import { wardQuery } from '../../../../api/queries.ts';
import { useBedside } from '../../bedside-context.ts';
import { FormDialog } from '../../shared/form-dialog.tsx';
import { BagMatrix } from '../bag-matrix.tsx';

type ListProductProps = { gtin: string; onClose: () => void; onListed: () => void };

/** Says once what a product code stands for; from then on every ward of the hospital knows it. */
export const ListProduct = ({ gtin, onClose, onListed }: ListProductProps) => {
  const { policy, ward } = useBedside();
  const queries = useQueryClient();
  const [bag, setBag] = useState<{ solutionId: string; labelledMl: number } | null>(null);
  const [sending, setSending] = useState(false);
  const [trouble, setTrouble] = useState<string | null>(null);
  const chosen = policy.formulary.find(({ id }) => id === bag?.solutionId);
  const keep = async () => {
    if (!bag) return;
    setSending(true);
    try {
      const change = { what: 'productListed', product: { gtin, ...bag } } as const;
      await sendEntries(ward.id, [draft('suppliesChanged', { change }, { patientId: null })]);
      await queries.refetchQueries({ queryKey: wardQuery(ward.id).queryKey });
      onListed();
    } catch (problem) {
      setTrouble(wordsOf(problem));
    } finally {
      setSending(false);
    }
  };
  return (
    <FormDialog
      title={`What is product ${gtin}?`}
      action={chosen && bag ? `List it as ${chosen.strength}, ${bag.labelledMl} mL` : 'List it'}
      disabledBecause={sending ? 'being sent' : bag ? null : 'strength and amount are missing'}
      onAct={() => void keep()}
      onClose={onClose}
    >
      <p>
        Read strength and amount on the bag. Every ward of the hospital will take this code for it, so let somebody
        check with you.
      </p>
      <BagMatrix
        formulary={policy.formulary}
        onChoose={(solutionId, labelledMl) => setBag({ solutionId, labelledMl })}
      />
      {trouble && <p role="alert">{trouble}</p>}
    </FormDialog>
  );
};
