/** The decoders by name, behind one shape, for whoever holds a port: page, agent, test. */
import { feedHidReport, hidStreamStart } from './hid-stream.js';
import type { Decoded, Fed } from './reading.js';
import { feedSma, smaRequests, smaStart } from './sma.js';
import { feedPolled, polledRequests, polledStart } from './status-bytes.js';
import { feedTextLines, textLinesStart } from './text-lines.js';

/** `hid` takes one report a call; the others take bytes in any pieces. */
export const decoderNames = ['hid', 'text_lines', 'sma', 'status_bytes'] as const;
export type DecoderName = (typeof decoderNames)[number];

/** What a scale is asked, as text to send; a scale that speaks by itself is asked nothing. */
export interface ScaleRequests {
  readonly weight: string;
  readonly zero: string;
}

/** A decoder with its state inside: give bytes, get what they carried, and the next decoder. */
export interface Listening {
  readonly found: readonly Decoded[];
  feed(bytes: Uint8Array): Listening;
}

const requests: Readonly<Record<DecoderName, ScaleRequests | undefined>> = {
  hid: undefined,
  text_lines: undefined,
  sma: smaRequests,
  status_bytes: polledRequests,
};

/** What to ask a scale of this kind for a weight and for zero; undefined: it speaks by itself. */
export function requestsOf(name: DecoderName): ScaleRequests | undefined {
  return requests[name];
}

/** A decoder right after a connect; listen('sma').feed(bytes).found are its first readings. */
export function listen(name: DecoderName): Listening {
  switch (name) {
    case 'hid':
      return listening(hidStreamStart, feedHidReport, []);
    case 'text_lines':
      return listening(textLinesStart, feedTextLines, []);
    case 'sma':
      return listening(smaStart, feedSma, []);
    case 'status_bytes':
      return listening(polledStart, feedPolled, []);
  }
}

function listening<S>(
  state: S,
  feed: (state: S, bytes: Uint8Array) => Fed<S>,
  found: readonly Decoded[],
): Listening {
  return {
    found,
    feed: (bytes) => {
      const fed = feed(state, bytes);
      return listening(fed.state, feed, fed.found);
    },
  };
}
