/** One WebSocket of a bench's scale: what it brings, or what it is told. */
import type { RawData, WebSocket } from 'ws';
import { readTold } from '../../../shared/scales/wire.js';
import type { ScalesService } from './scales.service.js';

/** Why a WebSocket is closed; 4000 and above are our own (RFC 6455, 7.4.2). */
export const closing = {
  away: 1001,
  notAReading: 1008,
  notSignedIn: 4401,
  replaced: 4409,
} as const;

/** So much may wait on a slow line, in bytes, before readings are left out. */
const waitingBytes = 32 * 1024;
/** So much, and the line is given up. */
const hopelessBytes = 1024 * 1024;

/** The agent's side: every message is a reading, or how the scale is; anything else ends it. */
export function bringing(
  socket: WebSocket,
  scales: ScalesService,
  studioId: string,
  benchId: string,
): void {
  const replaced = () => socket.close(closing.replaced, 'Another agent reads for this bench now.');
  const line = scales.bring(studioId, benchId, { replaced });
  socket.on('close', () => line.stop());
  socket.on('message', (data, isBinary) => {
    const told = isBinary ? undefined : readTold(textOf(data));
    if (told) line.tell(told);
    else socket.close(closing.notAReading, 'That is no message about a scale.');
  });
}

/** A page's side: it is told, and has nothing to say. */
export function hearing(
  socket: WebSocket,
  scales: ScalesService,
  studioId: string,
  benchId: string,
): void {
  const tell = (message: string, passing: boolean) => {
    if (passing && socket.bufferedAmount > waitingBytes) return;
    if (socket.bufferedAmount > hopelessBytes) socket.terminate();
    else socket.send(message);
  };
  socket.on('close', scales.hear(studioId, benchId, { tell }));
  socket.on('message', () => socket.close(closing.notAReading, 'This side only hears.'));
}

/** Text messages come as one buffer, unless the socket is told otherwise. */
function textOf(data: RawData): string {
  return Buffer.isBuffer(data) ? data.toString('utf8') : '';
}
