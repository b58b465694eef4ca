import type { WardView } from '@slackwater/contract';
import { useState } from 'react';
import { Link } from 'react-router';
import { roleOn, useMay, useSession } from '../../api/use-session.ts';
import { paths } from '../../paths.ts';
import { Button } from '../../ui/button.tsx';
import { Choice } from '../../ui/choice.tsx';
import { Dialog } from '../../ui/dialog.tsx';
import { familyName } from '../names.ts';
import { ROLE_WORDS } from '../role-words.ts';
import { SignOutWays } from '../sign-out-ways.tsx';
import styles from './person-menu.module.css';
import { useStillness } from './use-stillness.ts';

/** Who one is; behind it everything about the person and the page that is needed once a shift. */
export const PersonMenu = ({ ward }: { ward: WardView }) => {
  const session = useSession();
  const [open, setOpen] = useState(false);
  const role = roleOn(session, ward.id);
  return (
    <>
      <button type="button" className={styles.who} onClick={() => setOpen(true)}>
        {familyName(session.account.name)}
        {role && <span className={styles.role}>, {ROLE_WORDS[role]}</span>}
      </button>
      {open && <Menu ward={ward} onClose={() => setOpen(false)} />}
    </>
  );
};

const Menu = ({ ward, onClose }: { ward: WardView; onClose: () => void }) => {
  const { account, manager } = useSession();
  const [stillness, setStillness] = useStillness();
  const mayAdmit = useMay(ward.id, 'admitAndMove');
  const mayImport = useMay(ward.id, 'importExport');
  return (
    <Dialog title={account.name} onClose={onClose}>
      <div className={styles.menu}>
        <nav aria-label="Pages of the ward" className={styles.links}>
          <Link to={paths.board(ward.id)}>Board</Link>
          <Link to={paths.alerts(ward.id)}>Alerts</Link>
          {mayAdmit && <Link to={paths.admit(ward.id)}>Admit a patient</Link>}
          <Link to={paths.kept(ward.id)}>Entries kept for a decision</Link>
          <Link to={paths.supplies(ward.id)}>Products, recalls, lots</Link>
          <Link to={paths.setup(ward.id)}>Ward settings</Link>
          {manager && <Link to={paths.hospital()}>Wards and accounts</Link>}
          {mayImport && <Link to={paths.importSheet(ward.id)}>Bring in a flow sheet</Link>}
          <Link to={paths.wall(ward.id)}>Wall display</Link>
        </nav>
        <Choice
          label="The frame of a high alert that nobody has"
          options={[
            { value: 'blinks', label: 'Blinks' },
            { value: 'still', label: 'Stands still' },
          ]}
          value={stillness}
          onChange={setStillness}
        />
        <div className={styles.ways}>
          <SignOutWays ways={['here', 'everywhere']} tone="firm" />
          <Button onPress={onClose}>Back</Button>
        </div>
      </div>
    </Dialog>
  );
};
