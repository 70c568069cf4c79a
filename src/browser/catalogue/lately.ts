/** What was poured lately on this device, the newest first. */

const place = 'bowlworth.lately';
const most = 12;

/** Ids of products. */
export function lately(): readonly string[] {
  try {
    return JSON.parse(localStorage.getItem(place) ?? '[]') as string[];
  } catch {
    return [];
  }
}

/** Takes note of products that are planned or poured. */
export function usedNow(ids: readonly string[]): void {
  const rest = lately().filter((id) => !ids.includes(id));
  localStorage.setItem(place, JSON.stringify([...ids, ...rest].slice(0, most)));
}
