import type { WardView } from '@slackwater/contract';
import type { Product } from '@slackwater/domain';
import { solutionOf } from '@slackwater/domain/solution/formulary';
import { labelProblemWords } from '@slackwater/domain/solution/label/label-words';
import { readLabel } from '@slackwater/domain/solution/label/read-label';
import { formatMl } from '@slackwater/domain/words/numbers';
import { useState } from 'react';
import { Button } from '../../ui/button.tsx';
import { Field } from '../../ui/field.tsx';
import { Select } from '../../ui/select.tsx';
import { Table } from '../../ui/table.tsx';
import styles from './supplies.module.css';
import { useSupplyChange } from './use-supply-change.ts';
import { WithReason } from './with-reason.tsx';

/** The product code in what was typed or scanned into the field; what is wrong with it, in words. */
const codeIn = (typed: string): { gtin: string } | { problem: string | null } => {
  if (typed.trim() === '') return { problem: null };
  // no date stands in a product code, so the year does not matter
  const read = readLabel(typed, 2000);
  if (read.is === 'productCode') return { gtin: read.gtin };
  if (read.is === 'unreadable') return { problem: labelProblemWords(read.problems[0]) };
  return read.label.gtin === null ? { problem: 'This label names no product.' } : { gtin: read.label.gtin };
};

/** Which code is which bag. One code stands for one bag on every ward of the hospital. */
export const Products = ({ ward, mayNot }: { ward: WardView; mayNot: string | null }) => {
  const { formulary, supplies } = ward.policy;
  const { change, pending, trouble } = useSupplyChange(ward.id);
  const [typed, setTyped] = useState('');
  const [bag, setBag] = useState('');
  const [dropping, setDropping] = useState<Product | null>(null);
  const code = codeIn(typed);
  const [solutionId = '', labelledMl = ''] = bag.split('/');
  const labelOf = (id: string) => solutionOf(formulary, id)?.label ?? id;
  const list = async () => {
    if (!('gtin' in code)) return;
    const product = { gtin: code.gtin, solutionId, labelledMl: Number(labelledMl) };
    if (await change({ what: 'productListed', product })) {
      setTyped('');
      setBag('');
    }
  };
  return (
    <section aria-label="Products">
      <h2>Products</h2>
      <form
        className={styles.row}
        onSubmit={(event) => {
          event.preventDefault();
          if (!mayNot && 'gtin' in code && bag !== '' && !pending) void list();
        }}
      >
        <Field
          label="Product code: scan the bag, or type it"
          value={typed}
          onChange={setTyped}
          autoComplete="off"
          maxLength={400}
          problem={'problem' in code ? code.problem : trouble}
        />
        <Select
          label="Which bag it is"
          value={bag}
          onChange={setBag}
          options={formulary.flatMap(({ id, strength, bagMl }) =>
            bagMl.map((ml) => ({ value: `${id}/${ml}`, label: `${strength}, ${formatMl(ml)}` })),
          )}
        />
        <Button
          type="submit"
          tone="firm"
          disabledBecause={
            mayNot ??
            (pending ? 'being sent' : !('gtin' in code) ? 'the code is missing' : bag === '' ? 'choose the bag' : null)
          }
        >
          List it
        </Button>
      </form>
      {supplies.products.length > 0 && (
        <Table
          rows={supplies.products}
          keyOf={({ gtin }) => gtin}
          columns={[
            { head: 'Code', of: ({ gtin }) => gtin, className: 'mono' },
            {
              head: 'Bag',
              of: ({ solutionId, labelledMl }) => (
                <>
                  {labelOf(solutionId)}, <span className="nb">{formatMl(labelledMl)}</span>
                </>
              ),
            },
            {
              head: 'Drop',
              hideHead: true,
              of: (product) =>
                mayNot === null ? (
                  <Button tone="text" onPress={() => setDropping(product)}>
                    Drop<span className="sr"> {product.gtin}</span>
                  </Button>
                ) : null,
            },
          ]}
        />
      )}
      {supplies.products.length === 0 && <p>No product is listed: every scan says so, and bags are read by eye.</p>}
      {dropping && (
        <WithReason
          title={`Drop ${dropping.gtin}, ${labelOf(dropping.solutionId)}, ${formatMl(dropping.labelledMl)}?`}
          action="Drop it"
          pending={pending}
          trouble={trouble}
          onClose={() => setDropping(null)}
          onAct={async (reason) => {
            if (await change({ what: 'productDropped', gtin: dropping.gtin, reason })) setDropping(null);
          }}
        />
      )}
    </section>
  );
};
