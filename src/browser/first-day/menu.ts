/** What a studio usually offers, without prices, and what its bowls are for. */
import { words } from './texts.js';

/** A service as it is proposed. Minutes: common practice, no source. */
export interface UsualService {
  readonly name: string;
  readonly handsOnMinutes: number;
  readonly chairMinutes: number;
}

const { services, purposes } = words.menu.usual;

export const usualServices: readonly UsualService[] = [
  { name: services.roots, handsOnMinutes: 45, chairMinutes: 90 },
  { name: services.allOver, handsOnMinutes: 60, chairMinutes: 120 },
  { name: services.halfHead, handsOnMinutes: 90, chairMinutes: 150 },
  { name: services.fullHead, handsOnMinutes: 120, chairMinutes: 180 },
  { name: services.painted, handsOnMinutes: 100, chairMinutes: 180 },
  { name: services.lighten, handsOnMinutes: 90, chairMinutes: 180 },
  { name: services.gloss, handsOnMinutes: 20, chairMinutes: 45 },
  { name: services.correction, handsOnMinutes: 180, chairMinutes: 300 },
];

export const usualPurposes: readonly string[] = Object.values(purposes);

/** What is ticked and typed; prices by the names of services. */
export interface MenuTicked {
  readonly services: readonly string[];
  readonly others: string;
  readonly purposes: readonly string[];
  readonly prices: Readonly<Record<string, string>>;
}

export const untouchedMenu: MenuTicked = { services: [], others: '', purposes: [], prices: {} };

/** One thing to enter. */
export interface Wanted {
  readonly name: string;
  readonly isService: boolean;
}

/** Everything that is ticked or typed, each once. */
export function namesIn({ services: chosen, others, purposes: forWhat }: MenuTicked): Wanted[] {
  const typed = others
    .split(/[,\n;]/)
    .map((text) => text.trim().slice(0, 120))
    .filter((text) => text !== '');
  return [
    ...[...new Set([...chosen, ...typed])].map((name) => ({ name, isService: true })),
    ...forWhat.map((name) => ({ name, isService: false })),
  ];
}
