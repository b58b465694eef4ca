import { labelProblemWords } from '@slackwater/domain/solution/label/label-words';
import { formatIsoDate } from '@slackwater/domain/words/numbers';
import { type ReactNode, useState } from 'react';
import { Button } from '../../../../ui/button.tsx';
import { cx } from '../../../../ui/class-names.ts';
import { useBedside } from '../../bedside-context.ts';
import { ListProduct } from './list-product.tsx';
import type { Said, Scan } from './read-scan.ts';
import styles from './scan.module.css';

const Box = ({ stop = false, title, children }: { stop?: boolean; title: string; children?: ReactNode }) => (
  <div className={cx(styles.said, stop && styles.stop)} role="alert">
    <b>{title}</b>
    {children}
  </div>
);

/** What of lot and expiry was read. */
const readWords = ({ lot, expiresOn }: Said): string =>
  [lot && `lot ${lot}`, expiresOn && `expiry ${formatIsoDate(expiresOn)}`].filter(Boolean).join(', ');

/** What the last scan was, where it did not simply fit; each way to fail in words of its own. */
export const ScanSaid = ({ scan, onListed }: { scan: Scan; onListed: () => void }) => {
  const { mayDo } = useBedside();
  const [listing, setListing] = useState(false);
  switch (scan.is) {
    case 'wristband':
      return null;
    case 'bag':
      return scan.label.expiresOn === null || scan.label.lot === null ? (
        <Box title="The code does not say everything">
          {scan.label.lot === null && 'No lot. '}
          {scan.label.expiresOn === null && 'No expiry. '}Read what is printed.
        </Box>
      ) : null;
    case 'wrong':
      return (
        <Box title="Not read">
          {scan.problems.map((problem) => labelProblemWords(problem)).join(' ')} Scan it again, or touch what the label
          says.
          {scan.problems.some(({ is }) => is === 'notGs1') &&
            ' If it was a wristband, it is not this patient’s nor of anybody on this ward: look whose it is.'}
        </Box>
      );
    case 'unknownProduct': {
      const { gtin } = scan;
      const words = readWords(scan.label);
      return (
        <Box title={gtin === null ? 'The code names no product' : `Product ${gtin} is not listed`}>
          {words ? `Read: ${words}. ` : ''}Touch what the label says, strength and amount.{' '}
          {gtin !== null &&
            (mayDo('keepSupplies') ? (
              <Button tone="text" onPress={() => setListing(true)}>
                List this product
              </Button>
            ) : (
              'A charge nurse or manager may list it.'
            ))}
          {listing && gtin !== null && (
            <ListProduct
              gtin={gtin}
              onClose={() => setListing(false)}
              onListed={() => {
                setListing(false);
                onListed();
              }}
            />
          )}
        </Box>
      );
    }
  }
};

/** The wristband of somebody else: nothing goes on until the right one is read. */
export const WrongWristband = ({ bed, onAgain }: { bed: string | null; onAgain: () => void }) => (
  <Box stop title="This is another patient">
    The wristband is that of {bed === null ? 'another patient' : `bed ${bed}`}. Go to the right bed, or scan the right
    wristband.{' '}
    <Button tone="text" onPress={onAgain}>
      Read the wristband by eye
    </Button>
  </Box>
);
