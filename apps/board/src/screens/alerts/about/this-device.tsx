import { useState } from 'react';
import { chooseCalls, useDeviceCalls } from '../../../components/calls/device-calls.ts';
import { askForNotices, noticePermission } from '../../../components/calls/notices.ts';
import { hearOnce } from '../../../components/calls/tone.ts';
import { Button } from '../../../ui/button.tsx';
import { Choice } from '../../../ui/choice.tsx';
import styles from './this-device.module.css';

const OFF_OR_HIGH = [
  { value: 'off', label: 'Off' },
  { value: 'high', label: 'High alerts' },
] as const;

const WORDS = {
  none: 'This browser has no notices for pages.',
  denied: 'This browser refuses notices of this page: allow them in its settings, then choose again.',
  default: 'The browser will ask whether this page may.',
  granted: 'The browser allows them.',
} as const;

/** Whether this device calls people: chosen here, for this device alone, by whoever sets it up. */
export const ThisDevice = () => {
  const { sound, notices } = useDeviceCalls();
  const [permission, setPermission] = useState(noticePermission);
  const chooseNotices = async (next: 'off' | 'high') => {
    if (next === 'off') return chooseCalls({ notices: 'off' });
    const answer = await askForNotices();
    setPermission(answer);
    if (answer === 'granted') chooseCalls({ notices: 'high' });
  };
  return (
    <section aria-label="This device" className={styles.device}>
      <h2>This device</h2>
      <Choice
        label="Sound"
        value={sound}
        onChange={(next) => chooseCalls({ sound: next })}
        options={[...OFF_OR_HIGH]}
      />
      <p>
        For the desk. It sounds for a High that nobody has, until somebody acknowledges or snoozes it: that stands in
        the record, and there is no other way to silence it. It sounds while a page of this ward is open in this
        browser, in one of its tabs, also a hidden one. A browser allows it only after a press in the page.
      </p>
      <Button tone="text" onPress={() => void hearOnce()}>
        Hear it once
      </Button>
      <Choice
        label="Notices of the browser"
        value={notices}
        onChange={(next) => void chooseNotices(next)}
        options={[...OFF_OR_HIGH]}
      />
      <p>Bed and kind, never a name. {WORDS[permission]}</p>
    </section>
  );
};
