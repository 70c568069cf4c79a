/** Runs a piece of work from several clients for a while: how many a second, how long each. */

export interface Load {
  readonly perSecond: number;
  /** Milliseconds. */
  readonly median: number;
  readonly p99: number;
}

/** Each client starts its next piece when the one before is done. */
export async function load(
  clients: number,
  seconds: number,
  work: (client: number) => Promise<unknown>,
): Promise<Load> {
  const times: number[] = [];
  const begun = performance.now();
  const until = begun + seconds * 1000;
  await Promise.all(
    Array.from({ length: clients }, async (_, client) => {
      while (performance.now() < until) {
        const start = performance.now();
        await work(client);
        times.push(performance.now() - start);
      }
    }),
  );
  const took = (performance.now() - begun) / 1000;
  times.sort((a, b) => a - b);
  const at = (share: number) => times[Math.floor(share * (times.length - 1))] ?? 0;
  return { perSecond: times.length / took, median: at(0.5), p99: at(0.99) };
}
