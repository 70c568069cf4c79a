/**
 * Answers for when nobody answers: what the bench asks the service is kept on the device as a
 * bench may see it, whoever is signed in, and what is about people only until the day ends.
 */
import { today } from '../shell/clock.js';
import { send, Unreached } from './calls.js';
import { device, type KeptAnswer } from './device.js';

/** An answer, and whether it is one that was kept because nobody answered now. */
export interface Got<T> {
  readonly body: T;
  readonly kept: boolean;
}

/**
 * Asks the service, or takes what was kept.
 * @throws Refused; Unreached where nothing is kept either
 */
export async function askOrKept<T>(path: string): Promise<Got<T>> {
  try {
    return { body: (await send('GET', path)) as T, kept: false };
  } catch (error) {
    if (!(error instanceof Unreached)) throw error;
    const answer = await device.answer(path);
    if (!answer) throw error;
    const { body } = isOver(answer) ? yesterdays(answer) : answer;
    if (body === undefined) throw error;
    return { body: body as T, kept: true };
  }
}

/** The same without telling where it comes from. @throws as `askOrKept` */
export async function bodyOf<T>(path: string): Promise<T> {
  return (await askOrKept<T>(path)).body;
}

/** A caller has a bench's rights at most: a tablet keeps nothing that a bench may not see. */
const asBench = { 'bowlworth-as': 'bench' };

/** Something to keep of the service's answers. */
export interface ToKeep {
  readonly path: string;
  /** About people: wiped when the day ends, but for what this leaves of it. */
  readonly today?: { readonly leaves?: (body: unknown) => unknown };
}

/** Asks for what the bench needs when nobody answers, with a bench's rights, and keeps it. */
export async function stockUp(wanted: readonly ToKeep[]): Promise<void> {
  const answers = await Promise.all(
    wanted.map(async ({ path, today: ends }): Promise<KeptAnswer> => {
      const body = await send('GET', path, undefined, asBench);
      return ends
        ? { path, body, day: today(), lasting: ends.leaves?.(body) }
        : { path, body, day: null };
    }),
  );
  await device.write(async (writing) => {
    for (const answer of answers) await writing.objectStore('answers').put(answer);
  });
}

/** Wipes what was about people on a day that is over. */
export async function wipeYesterday(): Promise<void> {
  const over = (await device.all('answers')).filter(isOver);
  if (over.length === 0) return;
  await device.write(async (writing) => {
    const answers = writing.objectStore('answers');
    for (const answer of over) {
      if (answer.lasting === undefined) await answers.delete(answer.path);
      else await answers.put(yesterdays(answer));
    }
  });
}

function isOver({ day }: KeptAnswer): boolean {
  return day !== null && day !== today();
}

/** What is left of it when its day is over. */
function yesterdays({ path, lasting }: KeptAnswer): KeptAnswer {
  return { path, body: lasting, day: null };
}
