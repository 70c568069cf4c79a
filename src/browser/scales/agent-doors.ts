/** The two ways from a page to the bench agent, and opening the nearest that answers. */
import { hearsReadings, pageDoorPort } from '../../../shared/scales/wire.js';
import { answer, calls } from '../api/calls.js';

/** Where a WebSocket to the agent's readings may be; undefined where this way does not exist. */
export type Door = () => Promise<string | undefined>;

/** An open WebSocket, and what it said before anybody listened. */
export interface OpenedDoor {
  readonly socket: WebSocket;
  readonly early: unknown[];
}

const patienceMs = 3000;

/** The agent on this machine, without the service. */
export const onThisMachine: Door = () => Promise.resolve(`ws://127.0.0.1:${pageDoorPort}/`);

/** The service, which passes on what the agent of this bench brings. */
export const throughService: Door = async () => {
  const bench = await benchOfDevice().catch(() => undefined);
  if (bench === undefined) return undefined;
  const address = new URL(`/api/v1/scales/${bench}`, location.href);
  address.protocol = location.protocol === 'https:' ? 'wss:' : 'ws:';
  return address.href;
};

/** The bench that this device stands at, else the only one of the studio. */
async function benchOfDevice(): Promise<string | undefined> {
  const { bench } = await answer(calls.GET('/api/v1/session'));
  if (bench) return bench.id;
  const { items } = await answer(calls.GET('/api/v1/benches'));
  const [only, ...others] = items.filter(({ retiredAt }) => retiredAt === null);
  return others.length === 0 ? only?.id : undefined;
}

/** The first way that answers, tried in their order; undefined when none does. Never throws. */
export async function openDoor(doors: readonly Door[]): Promise<OpenedDoor | undefined> {
  for (const door of doors) {
    const address = await door();
    const opened = address === undefined ? undefined : await knock(address);
    if (opened) return opened;
  }
  return undefined;
}

function knock(address: string): Promise<OpenedDoor | undefined> {
  return new Promise((done) => {
    let socket: WebSocket;
    try {
      socket = new WebSocket(address, hearsReadings);
    } catch {
      return done(undefined); // a page over https may not open a plain one elsewhere
    }
    const early: unknown[] = [];
    const tooLate = setTimeout(() => socket.close(), patienceMs);
    socket.onmessage = ({ data }: MessageEvent<unknown>) => void early.push(data);
    socket.onopen = () => {
      clearTimeout(tooLate);
      done({ socket, early });
    };
    socket.onclose = () => {
      clearTimeout(tooLate);
      done(undefined);
    };
  });
}
