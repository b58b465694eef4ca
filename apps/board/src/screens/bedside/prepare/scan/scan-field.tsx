import { lazy, Suspense, useState } from 'react';
import { Button } from '../../../../ui/button.tsx';
import { Field } from '../../../../ui/field.tsx';
import { hasCamera } from './camera.ts';
import styles from './scan.module.css';
import { useScanner } from './use-scanner.ts';
import { isSeparator } from './wedge.ts';

const CameraDialog = lazy(async () => ({ default: (await import('./camera-dialog.tsx')).CameraDialog }));

type ScanFieldProps = {
  label?: string;
  onScan: (text: string) => void;
  /** The field is one touch away, since what is checked needs its room; a scanner is heard all the same. */
  folded?: boolean;
};

/**
 * One place for every scan: a scanner is heard wherever nobody types, a label or wristband may be typed here, and a
 * browser that reads codes itself offers its camera.
 */
export const ScanField = ({ label = 'Scan or type the label', onScan, folded = false }: ScanFieldProps) => {
  const [typed, setTyped] = useState('');
  const [looking, setLooking] = useState(false);
  const [isFolded, setFolded] = useState(folded);
  useScanner(onScan);
  if (isFolded)
    return (
      <Button tone="text" onPress={() => setFolded(false)}>
        Type a label or wristband
      </Button>
    );
  const read = () => {
    if (typed.trim() === '') return;
    setTyped('');
    onScan(typed);
  };
  return (
    <form
      className={styles.scan}
      onSubmit={(event) => {
        event.preventDefault();
        read();
      }}
    >
      <Field
        label={label}
        value={typed}
        onChange={setTyped}
        onKeyDown={(event) => {
          if (!isSeparator(event) || event.key === '\u001d') return;
          event.preventDefault();
          setTyped(`${typed}\u001d`);
        }}
        hint="As printed: (01) product (17) expiry (10) lot"
        autoComplete="off"
        spellCheck={false}
        maxLength={400}
      />
      <Button type="submit" disabledBecause={typed.trim() === '' ? 'nothing is typed' : null}>
        Read it
      </Button>
      {hasCamera() && <Button onPress={() => setLooking(true)}>Use the camera</Button>}
      {looking && (
        <Suspense>
          <CameraDialog
            onClose={() => setLooking(false)}
            onScan={(text) => {
              setLooking(false);
              onScan(text);
            }}
          />
        </Suspense>
      )}
    </form>
  );
};
