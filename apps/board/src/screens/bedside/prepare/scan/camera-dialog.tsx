import { useEffect, useEffectEvent, useRef, useState } from 'react';
import { Button } from '../../../../ui/button.tsx';
import { Dialog } from '../../../../ui/dialog.tsx';
import { lookForCode } from './camera.ts';
import styles from './scan.module.css';

/** What the camera sees, until it sees a code. It is asked for when this opens, and off once it closes. */
export const CameraDialog = ({ onScan, onClose }: { onScan: (text: string) => void; onClose: () => void }) => {
  const video = useRef<HTMLVideoElement>(null);
  const [refused, setRefused] = useState(false);
  const scanned = useEffectEvent(onScan);
  useEffect(() => {
    const ends = new AbortController();
    if (video.current)
      lookForCode(video.current, ends.signal).then(
        (text) => {
          if (text !== null && !ends.signal.aborted) scanned(text);
        },
        () => {
          if (!ends.signal.aborted) setRefused(true);
        },
      );
    return () => ends.abort();
  }, []);
  return (
    <Dialog title="Hold the code before the camera" onClose={onClose}>
      {refused ? (
        <p role="alert">The camera cannot be used: it was refused, or something else uses it. Type the label.</p>
      ) : (
        <video ref={video} className={styles.video} muted playsInline />
      )}
      <Button onPress={onClose}>Back</Button>
    </Dialog>
  );
};
