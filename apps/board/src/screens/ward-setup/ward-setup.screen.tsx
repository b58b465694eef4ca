import { useSuspenseQuery } from '@tanstack/react-query';
import { type LoaderFunctionArgs, useParams } from 'react-router';
import { wardQuery } from '../../api/queries.ts';
import { queryClient } from '../../api/query-client.ts';
import { loadBoard } from '../../live/use-ward.ts';
import { WardSetup } from './ward-setup.tsx';

export const loader = async ({ params }: LoaderFunctionArgs) => {
  const wardId = params.ward ?? '';
  await Promise.all([queryClient.ensureQueryData(wardQuery(wardId)), loadBoard(wardId)]);
  return null;
};

export const Component = () => {
  const { ward: wardId = '' } = useParams();
  const { data: ward } = useSuspenseQuery(wardQuery(wardId));
  return <WardSetup key={wardId} ward={ward} />;
};
