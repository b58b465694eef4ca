import { type RouteObject, redirect } from 'react-router';
import { sessionQuery } from './api/queries.ts';
import { queryClient } from './api/query-client.ts';
import { requireSession } from './api/require-session.ts';
import { homeOf } from './components/home-of.ts';
import { Trouble } from './components/trouble.tsx';
import { patterns } from './paths.ts';

type Screen = Pick<RouteObject, 'loader'> & { Component: React.ComponentType };

const screens = import.meta.glob<Screen>('./screens/*/*.screen.tsx');

/** Every screen is a chunk of its own: the first board does not carry the rest. */
const screen = (path: string, name: string): RouteObject => ({
  path,
  lazy: async () => {
    const load = screens[`./screens/${name}/${name}.screen.tsx`];
    if (!load) throw new Response(`There is no screen "${name}".`, { status: 404 });
    const { Component, loader } = await load();
    return { Component, ...(loader ? { loader } : {}) };
  },
});

export const routes: RouteObject[] = [
  {
    ErrorBoundary: Trouble,
    HydrateFallback: () => null,
    children: [
      screen(patterns.signIn, 'sign-in'),
      {
        id: 'signed-in',
        loader: requireSession,
        lazy: async () => ({ Component: (await import('./components/signed-in.tsx')).SignedIn }),
        children: [
          {
            path: patterns.home,
            loader: async () => redirect(homeOf(await queryClient.ensureQueryData(sessionQuery))),
          },
          screen(patterns.board, 'board'),
          screen(patterns.wall, 'wall'),
          screen(patterns.alerts, 'alerts'),
          screen(patterns.setup, 'ward-setup'),
          screen(patterns.admit, 'admission'),
          screen(patterns.bedside, 'bedside'),
          screen(patterns.record, 'patient-record'),
          screen(patterns.prescription, 'prescription'),
          screen(patterns.observations, 'observations'),
          screen(patterns.rounds, 'rounds'),
        ],
      },
    ],
  },
];
