/** Keeps the page's own files on the device, so that the bench opens without a network. */
export {};

interface Extendable extends Event {
  waitUntil(work: Promise<unknown>): void;
}

interface Fetching extends Extendable {
  readonly request: Request;
  respondWith(answer: Promise<Response>): void;
}

/** What of the worker's own world is used here. */
interface Worker {
  readonly location: Location;
  readonly clients: { claim(): Promise<void> };
  skipWaiting(): Promise<void>;
  addEventListener(type: 'install' | 'activate', listener: (event: Extendable) => void): void;
  addEventListener(type: 'fetch', listener: (event: Fetching) => void): void;
}

const worker = globalThis as unknown as Worker;

/** Replaced while building by the list of the built files. */
const listed: string = 'FILES_TO_KEEP';
const files = listed.startsWith('[') ? (JSON.parse(listed) as string[]) : [];
const kept = `page ${files.join(' ')}`;

worker.addEventListener('install', (event) => {
  const keep = caches.open(kept).then((cache) => cache.addAll(files.map((file) => `/${file}`)));
  event.waitUntil(keep.then(() => worker.skipWaiting()));
});

worker.addEventListener('activate', (event) => {
  const letGo = caches
    .keys()
    .then((names) =>
      Promise.all(names.filter((name) => name !== kept).map((n) => caches.delete(n))),
    );
  event.waitUntil(letGo.then(() => worker.clients.claim()));
});

worker.addEventListener('fetch', (event) => {
  const { request } = event;
  const address = new URL(request.url);
  if (request.method !== 'GET' || address.origin !== worker.location.origin) return;
  if (request.mode === 'navigate' && address.pathname === '/') event.respondWith(newest(request));
  else if (address.pathname.startsWith('/assets/')) event.respondWith(fromDevice(request));
});

/** The newest page where the service answers, else the one that is kept. */
async function newest(request: Request): Promise<Response> {
  try {
    return await fetch(request);
  } catch {
    return (await caches.match('/')) ?? Response.error();
  }
}

async function fromDevice(request: Request): Promise<Response> {
  return (await caches.match(request, { ignoreVary: true })) ?? fetch(request);
}
