import { type RouteObject, redirect } from 'react-router';
import { sessionQuery } from './api/queries.ts';
import { queryClient } from './api/query-client.ts';
import { requireSession } from './api/require-session.ts';
import { homeOf } from './components/home-of.ts';
import { Trouble } from './components/trouble.tsx';
import { patterns } from './paths.ts';

type Screen = Pick<RouteObject, 'loader'> & { Component: React.ComponentType };

/** Every screen is a chunk of its own: the first board does not carry the rest. */
const screen = (path: string, load: () => Promise<Screen>): RouteObject => ({
  path,
  lazy: async () => {
    const { Component, loader } = await load();
    return { Component, ...(loader ? { loader } : {}) };
  },
});

export const routes: RouteObject[] = [
  {
    ErrorBoundary: Trouble,
    HydrateFallback: () => null,
    children: [
      screen(patterns.signIn, () => import('./screens/sign-in/sign-in.screen.tsx')),
      screen(patterns.firstAdministrator, () => import('./screens/first-administrator/first-administrator.screen.tsx')),
      screen(patterns.openWall, () => import('./screens/open-wall/open-wall.screen.tsx')),
      {
        loader: requireSession,
        lazy: async () => ({ Component: (await import('./components/signed-in.tsx')).SignedIn }),
        children: [
          {
            path: patterns.home,
            loader: async () => redirect(homeOf(await queryClient.ensureQueryData(sessionQuery))),
          },
          screen(patterns.hospital, () => import('./screens/hospital/hospital.screen.tsx')),
          screen(patterns.audit, () => import('./screens/hospital/audit/audit.screen.tsx')),
          screen(patterns.board, () => import('./screens/board/board.screen.tsx')),
          screen(patterns.wall, () => import('./screens/wall/wall.screen.tsx')),
          screen(patterns.alerts, () => import('./screens/alerts/alerts.screen.tsx')),
          screen(patterns.supplies, () => import('./screens/supplies/supplies.screen.tsx')),
          screen(patterns.setup, () => import('./screens/ward-setup/ward-setup.screen.tsx')),
          screen(patterns.importSheet, () => import('./screens/import/import.screen.tsx')),
          screen(patterns.kept, () => import('./screens/kept/kept.screen.tsx')),
          screen(patterns.admit, () => import('./screens/admission/admission.screen.tsx')),
          screen(patterns.bedside, () => import('./screens/bedside/bedside.screen.tsx')),
          screen(patterns.record, () => import('./screens/patient-record/patient-record.screen.tsx')),
          screen(patterns.prescription, () => import('./screens/prescription/prescription.screen.tsx')),
          screen(patterns.observations, () => import('./screens/observations/observations.screen.tsx')),
          screen(patterns.inside, () => import('./screens/inside/inside.screen.tsx')),
          screen(patterns.rounds, () => import('./screens/rounds/rounds.screen.tsx')),
          screen(patterns.handedOver, () => import('./screens/handed-over/handed-over.screen.tsx')),
          screen(patterns.workUp, () => import('./screens/work-up/work-up.screen.tsx')),
        ],
      },
    ],
  },
];
