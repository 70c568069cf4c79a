/** Pours that a page left behind when it was reloaded or killed: booked as they stand. */
import { tabs } from '../api/tabs.js';
import { bookPour } from './bookings.js';
import { booked } from './sheet.js';
import { sheets } from './sheets.js';

/** Books what stands in a bowl's sheet and was not booked; this tab has the bowl. */
export function bookLeftBehind(bowlId: string): void {
  const sheet = sheets.get(bowlId);
  for (const pour of sheet?.pours ?? []) {
    const now = sheets.get(bowlId);
    if (!now || !pour.pending) continue;
    sheets.put(booked(now, pour.id));
    bookPour(now, pour, pour.pending);
  }
}

/** The same for every bowl that no tab has in hand. */
export async function bookAllLeftBehind(): Promise<void> {
  for (const { id, pours } of sheets.all()) {
    if (!pours.some((pour) => pour.pending)) continue;
    const held = await tabs.hold(inHand(id), () => Promise.resolve());
    if (!held) continue;
    bookLeftBehind(id);
    held.release();
  }
}

/** What a tab holds while it has a bowl in hand. */
export function inHand(bowlId: string): string {
  return `bowl ${bowlId}`;
}
