import { Button } from '../../../ui/button.tsx';
import { Notice } from '../../../ui/notice.tsx';
import type { Recorder } from './use-record.ts';

/** Says when a touch does not stand in the record, and offers the same again; nothing typed is lost. */
export const FailureNotice = ({ recorder: { failure, send, sending, dismiss } }: { recorder: Recorder }) => {
  if (!failure || failure.is === 'conflict') return null;
  if (failure.is === 'unsent')
    return (
      <Notice tone="ink" urgent>
        <span>
          <b>{failure.words}</b> What you said is kept here and can be sent again.
        </span>
        <Button tone="text" onPress={() => void send(failure.drafts)} disabledBecause={sending ? 'trying again' : null}>
          Send again
        </Button>
      </Notice>
    );
  const words = failure.errors.length > 0 ? failure.errors.map((error) => error.message) : [failure.words];
  return (
    <Notice tone="ink" urgent>
      <span>
        <b>Not recorded.</b> {words.join(' ')}
      </span>
      <Button tone="text" onPress={dismiss}>
        Close
      </Button>
    </Notice>
  );
};
