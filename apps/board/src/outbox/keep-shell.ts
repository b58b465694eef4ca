/**
 * Lets the browser keep the board's own files, so that it opens without network. A newer build takes over here, when a
 * page is loaded: never under somebody's hands.
 */
export const keepShell = (): void => {
  if (!import.meta.env.PROD || !('serviceWorker' in navigator)) return;
  navigator.serviceWorker
    .register('/service-worker.js')
    .then(({ waiting }) => waiting?.postMessage('takeOver'))
    // A browser that forbids it works with network as before.
    .catch(() => {});
};
