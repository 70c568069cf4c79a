/**
 * The line of what was done at the bench and goes to the service: which is next, what waits for
 * something that was refused. Pure: the outbox keeps it, the page shows it.
 */

/** One posting call; its body carries an id of its own, so that sending twice books once. */
export interface Posting {
  readonly id: string;
  readonly method: 'POST' | 'PUT' | 'PATCH';
  /** Below /api/v1: "/bowls/0192…/pours". */
  readonly path: string;
  readonly body: Readonly<Record<string, unknown>>;
  /** What it is, for a person: "20 vol, 36 g". */
  readonly what: string;
}

/** A posting as it is kept on the device. Instants are the device's, RFC 3339. */
export interface KeptPosting extends Posting {
  /** Place in the line; rises in the order of doing. */
  readonly seq: number;
  readonly state: 'waiting' | 'refused' | 'sent';
  readonly writtenAt: string;
  /** It was sent at least once; nobody knows yet whether it arrived. */
  readonly tried: boolean;
  /** When the service had answered. */
  readonly sentAt?: string;
  /** Why it was refused: the service's code and sentence. */
  readonly code?: string;
  readonly reason?: string;
}

/** A posting that the service refused, with the reason. */
export interface RefusedPosting extends KeptPosting {
  readonly reason: string;
}

const uuid = /[0-9a-f]{8}-(?:[0-9a-f]{4}-){3}[0-9a-f]{12}/g;
const named = new WeakMap<Posting, ReadonlySet<string>>();

/** Ids that a posting names beside its own: its bowl, its visit, the pour that it changes. */
function idsNamedBy(posting: Posting): ReadonlySet<string> {
  const known = named.get(posting);
  if (known) return known;
  const text = posting.path + JSON.stringify(posting.body);
  const ids = new Set(text.match(uuid) ?? []);
  ids.delete(posting.id);
  named.set(posting, ids);
  return ids;
}

const changesContents =
  /^\/bowls\/([^/]+)\/(?:pours|scooped-back|other-product|division|weighings|settlement|reversal)$/;
const countsContents = /^\/bowls\/([^/]+)\/(?:division|weighings|settlement|reversal)$/;

/** The bowls whose contents a posting changes: its own, and the one that it is divided into. */
function bowlsChangedBy({ path, body }: Posting): string[] {
  const own = changesContents.exec(path)?.[1];
  if (own === undefined) return [];
  const into = (body['into'] as { id?: string } | undefined)?.id;
  return into === undefined ? [own] : [own, into];
}

/**
 * What waits for something refused, by id: the refused posting's id. A posting leans on another
 * when it names its id (a pour names its bowl, a bowl its visit), or when it weighs, settles or
 * divides a bowl whose contents the other one changes. What leans on it in turn waits too.
 */
export function heldBy(queue: readonly KeptPosting[]): ReadonlyMap<string, string> {
  const held = new Map<string, string>();
  const stuck = new Map<string, string>();
  const stuckBowls = new Map<string, string>();
  const blocks = (posting: Posting, refused: string) => {
    stuck.set(posting.id, refused);
    for (const bowl of bowlsChangedBy(posting)) stuckBowls.set(bowl, refused);
  };
  for (const posting of inOrder(queue)) {
    if (posting.state === 'refused') blocks(posting, posting.id);
    if (posting.state !== 'waiting') continue;
    const bowl = countsContents.exec(posting.path)?.[1];
    const refused =
      [...idsNamedBy(posting)].map((id) => stuck.get(id)).find((id) => id !== undefined) ??
      (bowl === undefined ? undefined : stuckBowls.get(bowl));
    if (refused === undefined) continue;
    held.set(posting.id, refused);
    blocks(posting, refused);
  }
  return held;
}

/** The posting to send now; none where all that waits leans on something refused. */
export function nextOf(queue: readonly KeptPosting[]): KeptPosting | undefined {
  const held = heldBy(queue);
  return inOrder(queue).find(({ state, id }) => state === 'waiting' && !held.has(id));
}

/** In the order in which it was done. */
export function inOrder(queue: readonly KeptPosting[]): readonly KeptPosting[] {
  return queue.toSorted((a, b) => a.seq - b.seq);
}

/** Sent ones that need not be shown any more: answered before `before` (RFC 3339 in UTC). */
export function sentBefore(queue: readonly KeptPosting[], before: string): readonly KeptPosting[] {
  return queue.filter(({ state, sentAt = '' }) => state === 'sent' && sentAt < before);
}
