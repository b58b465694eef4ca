import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useNavigate } from 'react-router';
import { api } from '../../api/client.ts';
import { forgetWards } from '../../live/use-ward.ts';
import { paths } from '../../paths.ts';
import { Button } from '../../ui/button.tsx';

export const SignOut = () => {
  const queries = useQueryClient();
  const navigate = useNavigate();
  const signOut = useMutation({
    mutationFn: () => api.post('/api/sign-out'),
    onSuccess: () => {
      queries.clear();
      forgetWards();
      navigate(paths.signIn(), { replace: true });
    },
  });
  return (
    <Button tone="text" onPress={() => signOut.mutate()}>
      Sign out
    </Button>
  );
};
