import type { PrescriptionItem, Solution } from '@slackwater/domain';
import { orderedAdditivesWords } from '@slackwater/domain/prescription/additive-words';
import { dwellWords } from '@slackwater/domain/prescription/changes';
import { solutionOf } from '@slackwater/domain/solution/formulary';
import { formatMl } from '@slackwater/domain/words/numbers';
import { cx } from '../../ui/class-names.ts';
import styles from './prescription.module.css';

/** One prescribed exchange: strength as text, fill, dwell and how far it may move, what goes in, what is left to the bedside. */
export const RevisionItem = ({ item, formulary }: { item: PrescriptionItem; formulary: readonly Solution[] }) => (
  <>
    <span className={styles.strength}>{solutionOf(formulary, item.solutionId)?.strength ?? item.solutionId}</span>{' '}
    <span className="nb">{formatMl(item.fillMl)}</span>,{' '}
    <span className={cx(item.dwell.by !== 'cycle' && 'nb')}>{dwellWords(item.dwell)}</span>
    {item.windowMinutes > 0 && (
      <>
        {' '}
        <span className="nb quiet">± {item.windowMinutes} min</span>
      </>
    )}
    {item.additives.length > 0 && (
      <>
        <br />
        with {orderedAdditivesWords(item.additives)}
      </>
    )}
    {item.condition && (
      <>
        <br />
        {item.condition}
      </>
    )}
  </>
);
