import { useMutation } from '@tanstack/react-query';
import { useState } from 'react';
import { useNavigate } from 'react-router';
import { wordsOf } from '../api/problems.ts';
import { entriesThatStay, signOut } from '../api/sign-out.ts';
import { paths } from '../paths.ts';
import { Button, type ButtonTone } from '../ui/button.tsx';

type Where = 'here' | 'everywhere';

/** The ways out. Where something waits on this device, it says so first: signing out never clears it. */
export const SignOutWays = ({ ways, tone }: { ways: readonly Where[]; tone: ButtonTone }) => {
  const navigate = useNavigate();
  const [warned, setWarned] = useState<{ where: Where; count: number } | null>(null);
  const leave = useMutation({
    mutationFn: signOut,
    onSuccess: () => navigate(paths.signIn(), { replace: true }),
  });
  const press = async (where: Where) => {
    const count = await entriesThatStay();
    if (count > 0 && warned === null) setWarned({ where, count });
    else leave.mutate(where);
  };
  if (warned) {
    const { where, count } = warned;
    const entries = count === 1 ? '1 entry' : `${count} entries`;
    return (
      <>
        <p role="alert">
          <b>
            {entries} of yours {count === 1 ? 'waits' : 'wait'} on this device and {count === 1 ? 'is' : 'are'} not in
            the record.
          </b>{' '}
          Signing out leaves {count === 1 ? 'it' : 'them'} here, sealed, until you sign in on this device again.
        </p>
        <Button
          tone="firm"
          onPress={() => leave.mutate(where)}
          disabledBecause={leave.isPending ? 'signing out' : null}
        >
          Sign out, leave {entries} here
        </Button>
        <Button onPress={() => setWarned(null)}>Stay</Button>
      </>
    );
  }
  return (
    <>
      {leave.isError && <p role="alert">{wordsOf(leave.error)}</p>}
      {ways.map((where, index) => (
        <Button key={where} tone={index === 0 ? tone : 'side'} onPress={() => void press(where)}>
          {where === 'here' ? 'Sign out' : 'Sign out everywhere'}
        </Button>
      ))}
    </>
  );
};
