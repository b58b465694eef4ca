import type { Override } from '@slackwater/domain';
import { OverrideDialog } from '../shared/override-dialog.tsx';

type BagOverrideProps = { title: string; onClose: () => void; onOverride: (override: Override) => void };

/** Going on, by right of role, with a bag that its check stops. */
export const BagOverride = ({ title, onClose, onOverride }: BagOverrideProps) => (
  <OverrideDialog
    draftKey="bag-override"
    title={`Use it all the same? ${title}`}
    act="use this bag"
    closeWords="Back, another bag"
    onClose={onClose}
    onOverride={onOverride}
  >
    <p>
      <b>Local policy decides whether such a bag may be used at all</b>, and it may say never. This tool judges nothing
      here: it keeps who decided, when and why, in the record and in the audit.
    </p>
  </OverrideDialog>
);
