import '@fontsource-variable/atkinson-hyperlegible-next/wght.css';
import '@fontsource/atkinson-hyperlegible-mono/latin-400.css';
import '@fontsource/atkinson-hyperlegible-mono/latin-500.css';
import '@fontsource/atkinson-hyperlegible-mono/latin-600.css';
import '@fontsource/atkinson-hyperlegible-mono/latin-700.css';
import './ui/tokens.css';
import './ui/base.css';
import { QueryClientProvider } from '@tanstack/react-query';
import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { createBrowserRouter } from 'react-router';
import { RouterProvider } from 'react-router/dom';
import { measureOnWake } from './api/measure-on-wake.ts';
import { queryClient } from './api/query-client.ts';
import { reached } from './api/reach.ts';
import { applyStillness } from './components/top-line/use-stillness.ts';
import { keepShell } from './outbox/keep-shell.ts';
import { routes } from './routes.tsx';

// Browsers without Temporal (the ward's calendar needs it) load it before anything is drawn; the others never do.
if (!('Temporal' in globalThis)) await import('temporal-polyfill/global');

applyStillness();
window.addEventListener('offline', reached.lost);
keepShell();
measureOnWake();

const root = document.getElementById('root');
if (!root) throw new Error('index.html has no element with the id "root"');

createRoot(root).render(
  <StrictMode>
    <QueryClientProvider client={queryClient}>
      <RouterProvider router={createBrowserRouter(routes)} />
    </QueryClientProvider>
  </StrictMode>,
);
