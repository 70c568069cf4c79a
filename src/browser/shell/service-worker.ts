/**
 * Keeps the page's own files on the device, so that the bench opens without a network. A version
 * is kept whole and shown whole: a newer one waits until no tab works with this one, or is asked.
 */
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
  addEventListener(type: 'message', listener: (event: MessageEvent<unknown>) => void): void;
}

const worker = globalThis as unknown as Worker;

/** Replaced while building by the list of the built files. */
const listed: string = 'FILES_TO_KEEP';
const files = listed.startsWith('[') ? (JSON.parse(listed) as string[]) : [];
const kept = `page ${files.join(' ')}`;
const addresses = new Set(files.map((file) => `/${file}`));

worker.addEventListener('install', (event) => {
  event.waitUntil(caches.open(kept).then((cache) => cache.addAll([...addresses])));
});

worker.addEventListener('activate', (event) => {
  const letGo = caches
    .keys()
    .then((names) =>
      Promise.all(names.filter((name) => name !== kept).map((n) => caches.delete(n))),
    );
  event.waitUntil(letGo.then(() => worker.clients.claim()));
});

worker.addEventListener('message', ({ data }) => {
  if (data === 'take over') void worker.skipWaiting();
});

worker.addEventListener('fetch', (event) => {
  const { request } = event;
  const { origin, pathname } = new URL(request.url);
  const own = request.method === 'GET' && origin === worker.location.origin;
  if (own && addresses.has(pathname)) event.respondWith(fromDevice(pathname, request));
});

async function fromDevice(pathname: string, request: Request): Promise<Response> {
  const cache = await caches.open(kept);
  return (await cache.match(pathname, { ignoreVary: true })) ?? fetch(request);
}
