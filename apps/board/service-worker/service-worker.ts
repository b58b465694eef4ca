// Opens the board's own files without network. It knows nothing of patients: what the API says is never kept here.

/** Written in front by the build: a digest of all files, and their addresses. */
declare const BUILD: string;
declare const FILES: readonly string[];

const worker = self as unknown as ServiceWorkerGlobalScope;
const PREFIX = 'slackwater ';
const CACHE = PREFIX + BUILD;
const SHELL = '/';
/** A line on which nothing moves for so long is no line: the shell of this build stands in. */
const PAGE_WITHIN_MS = 3000;

worker.addEventListener('install', (event) => {
  const fresh = FILES.map((file) => new Request(file, { cache: 'reload' }));
  event.waitUntil(caches.open(CACHE).then((cache) => cache.addAll(fresh)));
});

/** Pages of the build before may still be open and ask for files of theirs; older ones are gone. */
worker.addEventListener('activate', (event) => {
  const clear = async () => {
    const others = (await caches.keys()).filter((name) => name.startsWith(PREFIX) && name !== CACHE);
    await Promise.all(others.slice(0, -1).map((name) => caches.delete(name)));
    await worker.clients.claim();
  };
  event.waitUntil(clear());
});

/** A new build waits until a page is loaded anew: nobody's screen changes in the middle of an exchange. */
worker.addEventListener('message', ({ data }) => {
  if (data === 'takeOver') void worker.skipWaiting();
});

/** The server's own page, so that a reload is always of its build; without it the shell that was kept. */
async function page(request: Request): Promise<Response> {
  try {
    return await fetch(request, { signal: AbortSignal.timeout(PAGE_WITHIN_MS) });
  } catch {
    return (await caches.match(SHELL)) ?? Response.error();
  }
}

/** Files carry a digest of their content in their name: what was kept under it is right. */
const file = async (request: Request): Promise<Response> => (await caches.match(request)) ?? fetch(request);

worker.addEventListener('fetch', (event) => {
  const { request } = event;
  const { origin, pathname } = new URL(request.url);
  if (request.method !== 'GET' || origin !== worker.location.origin || pathname.startsWith('/api/')) return;
  if (request.mode === 'navigate') event.respondWith(page(request));
  else if (FILES.includes(pathname)) event.respondWith(file(request));
  else if (pathname.startsWith('/assets/')) event.respondWith(file(request));
});
