import type { BagInHand, DespiteOrder, EpochMs, Override, Solution } from '@slackwater/domain';
import type { NextBag } from '@slackwater/domain/prescription/bag-for';
import { type Act, act } from '../model/batch.ts';
import type { EyeCheck, Purpose } from './prepare-draft.ts';

type Prepared = {
  purpose: Purpose;
  /** Its number is this patient's; else name and birth date were held against it by eye. */
  wristbandScanned: boolean;
  bag: BagInHand | null;
  wanted: NextBag | null;
  notSo: readonly EyeCheck[];
  solution: Solution | null;
  override: Override | null;
  despite: DespiteOrder | null;
  at: EpochMs;
};

/** What the touch on "all six are right" says: both identifiers, the bag, and for which item or order it is. */
export const prepareAct = ({
  purpose,
  wristbandScanned,
  bag,
  wanted,
  notSo,
  solution,
  override,
  despite,
  at,
}: Prepared): Act => {
  const so = (check: EyeCheck) => !notSo.includes(check);
  return act(
    'prepare',
    {
      purpose,
      identifiers: wristbandScanned ? ['hospitalNumber', 'wristband'] : ['name', 'dateOfBirth', 'wristband'],
      bag,
      revisionId: bag ? (wanted?.revisionId ?? null) : null,
      itemId: bag ? (wanted?.itemId ?? null) : null,
      orderId: bag ? (wanted?.orderId ?? null) : null,
      bagChecks: bag
        ? {
            noLeak: so('noLeak'),
            clear: so('clear'),
            warmed: so('warmed'),
            sealWhole: so('noLeak'),
            mixed: (solution?.chambers ?? 1) > 1 ? so('mixed') : null,
          }
        : null,
      override,
      ...(despite && { despiteOrder: despite }),
    },
    at,
  );
};
