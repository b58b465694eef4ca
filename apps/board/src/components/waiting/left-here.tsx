import { useEffect, useState } from 'react';
import type { OutboxNow } from '../../outbox/outbox.ts';
import { outbox } from '../../outbox/this-device.ts';
import { Notice } from '../../ui/notice.tsx';
import { OthersHere } from './waiting-dialog.tsx';

/** Before anybody has signed in: what waits on this device, whose it is, and when it goes out. */
const LeftHere = () => {
  const [now, setNow] = useState<OutboxNow | null>(null);
  useEffect(() => {
    outbox.hold(null).then(
      () => setNow(outbox.current()),
      () => setNow(null),
    );
  }, []);
  if (!now || (now.others.length === 0 && now.newer === 0)) return null;
  return (
    <Notice>
      <div>
        <OthersHere now={now} />
      </div>
    </Notice>
  );
};

export default LeftHere;
