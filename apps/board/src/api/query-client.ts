import { QueryClient } from '@tanstack/react-query';
import { NoAnswer } from './problems.ts';
import { reached } from './reach.ts';

/** One cache for the app. What the stream announces is invalidated by it, so nothing is fetched again by the clock. */
export const queryClient = new QueryClient({
  defaultOptions: {
    queries: {
      networkMode: 'always',
      staleTime: 60_000,
      refetchOnWindowFocus: false,
      retry: (count, problem) => problem instanceof NoAnswer && !reached.current().down && count < 2,
    },
    mutations: { networkMode: 'always', retry: false },
  },
});
