import { useState } from 'react';
import { Link } from 'react-router';
import { useSession } from '../../api/use-session.ts';
import { paths } from '../../paths.ts';
import { Button } from '../../ui/button.tsx';
import styles from './hospital.module.css';
import { NewWardDialog } from './new-ward-dialog.tsx';

/** Every ward of the hospital; a new one opens with the default settings. */
export const Wards = () => {
  const { roles } = useSession();
  const [open, setOpen] = useState(false);
  const wards = roles.filter(({ role }) => role === 'manager');
  return (
    <section aria-label="Wards">
      <h1>Wards</h1>
      {wards.length === 0 && (
        <p className={styles.lead}>There is no ward yet. Open the first one, then make its accounts.</p>
      )}
      <ul className={styles.wards}>
        {wards.map(({ wardId, wardName }) => (
          <li key={wardId}>
            <b>{wardName}</b>
            <Link to={paths.board(wardId)}>Board</Link>
            <Link to={paths.setup(wardId)}>Settings</Link>
          </li>
        ))}
      </ul>
      <Button tone={wards.length === 0 ? 'main' : 'side'} onPress={() => setOpen(true)}>
        Open a ward
      </Button>
      {open && <NewWardDialog onClose={() => setOpen(false)} />}
    </section>
  );
};
