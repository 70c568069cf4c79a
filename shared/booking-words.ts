/** What a diary's title says: who comes, and which services its words mean. */
import { shortClientLabel } from './client-label.js';

/** Where a title names the client: "Ada Brook - Balayage", "Balayage - Ada Brook", or nowhere. */
export type NamePlace = 'first' | 'last' | 'none';

/** Words of the diary, and what they mean; no service: not a visit ("lunch"). */
export interface WordRule {
  readonly words: string;
  readonly serviceIds: readonly string[];
}

/** What a title was taken apart into. */
export interface TitleParts {
  /** The whole name as written; never kept longer than it takes to find the client. */
  readonly name: string | null;
  readonly what: string;
}

/** Services that words mean. */
export interface MatchedWords {
  readonly serviceIds: readonly string[];
  /** The words that were found, in the order of the rules. */
  readonly found: readonly string[];
  /** True where a rule says that this is not a visit. */
  readonly notAVisit: boolean;
}

const LONGEST_WHAT = 100;
const LONGEST_WHO = 40;
/** Between a name and a service: colons, bars, commas, brackets, line ends, spaced dashes. */
const marks = /[:;|·(),\n]/g;
const between = /(?:^|\s)[-–—|/](?=\s|$)/;
const address = /\S+@\S+|https?:\/\/\S+|\+?\d[\d\s/().-]{5,}\d/g;

/** Lower case, without accents and marks: "Déc. Racines" -> "dec racines". */
export function plainWords(text: string): string {
  return text
    .normalize('NFD')
    .replaceAll(/\p{M}/gu, '')
    .toLowerCase()
    .replaceAll(/[^\p{L}\p{N}]+/gu, ' ')
    .trim();
}

/**
 * Which services a text means: rules in their order, each taking its words out of the text, so
 * that "half balayage" before "balayage" is not found twice. Whole words only.
 * Example: "Half balayage + toner" -> half balayage, toner.
 */
export function matchWords(text: string, rules: readonly WordRule[]): MatchedWords {
  let left = ` ${plainWords(text)} `;
  const found: string[] = [];
  const serviceIds: string[] = [];
  let notAVisit = false;
  for (const { words, serviceIds: meant } of rules) {
    const wanted = plainWords(words);
    if (wanted === '' || !left.includes(` ${wanted} `)) continue;
    left = left.replace(` ${wanted} `, ' | ');
    found.push(words);
    if (meant.length === 0) notAVisit = true;
    serviceIds.push(...meant.filter((id) => !serviceIds.includes(id)));
  }
  return { serviceIds, found, notAVisit: notAVisit && serviceIds.length === 0 };
}

/**
 * The rules that stand: those typed, in their order, then every service by its own name, the
 * longest name first.
 */
export function standingRules(
  typed: readonly WordRule[],
  services: readonly { readonly id: string; readonly name: string }[],
): WordRule[] {
  const named = services
    .map(({ id, name }) => ({ words: name, serviceIds: [id] }))
    .sort((a, b) => b.words.length - a.words.length);
  return [...typed, ...named];
}

/**
 * Takes a title apart. A title of one piece is searched for words that are known: these are what
 * is booked, the rest is the name; with nothing known in it, it is all name. Addresses and
 * telephone numbers are left out.
 */
export function splitTitle(
  title: string,
  place: NamePlace,
  rules: readonly WordRule[],
): TitleParts {
  const text = title.replaceAll(address, ' ').trim();
  if (place === 'none') return { name: null, what: shortened(text, LONGEST_WHAT) };
  const pieces = text
    .replaceAll(marks, ' | ')
    .split(between)
    .map((piece) => piece.trim())
    .filter((piece) => plainWords(piece) !== '');
  if (pieces.length < 2) return fromOnePiece(text, rules);
  const name = place === 'first' ? pieces.shift() : pieces.pop();
  return { name: name ?? null, what: shortened(pieces.join(' + '), LONGEST_WHAT) };
}

/** First name and initial, the most that a diary's name is kept as: "Ada Brook" -> "Ada B.". */
export function keptName(name: string | null): string | null {
  const plain = name?.replaceAll(address, ' ').trim() ?? '';
  if (plain === '') return null;
  return shortened(shortClientLabel({ number: 0, name: plain }), LONGEST_WHO);
}

function fromOnePiece(text: string, rules: readonly WordRule[]): TitleParts {
  const { found } = matchWords(text, rules);
  if (found.length === 0) return { name: text === '' ? null : text, what: '' };
  const known = new Set(found.flatMap((words) => plainWords(words).split(' ')));
  const rest = text.split(/\s+/).filter((word) => {
    const plain = plainWords(word);
    return plain !== '' && !known.has(plain);
  });
  return {
    name: rest.length > 0 ? rest.join(' ') : null,
    what: shortened(found.join(' + '), LONGEST_WHAT),
  };
}

function shortened(text: string, most: number): string {
  const plain = text.replaceAll(/\s+/g, ' ').trim();
  return plain.length > most ? `${plain.slice(0, most - 1)}…` : plain;
}
