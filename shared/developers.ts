/** Which developers make a strength, and in what parts by volume. */
import { alligationAlternate } from './alligation.js';
import { canonical, one, type Decimal } from './decimal.js';
import { nameOf, type MixProduct, type SharedPart } from './mix.js';
import { Problem } from './problems/problem.js';
import { judgeStrength, strengthOfBlend, strengthOfBottle } from './strength.js';

/** A developer and its part of the developer side, by volume. */
export interface DeveloperPart {
  readonly product: MixProduct;
  readonly parts: Decimal;
}

/**
 * Chooses developers for a strength in vol: one that has it exactly, alone; else the nearest
 * weaker and the nearest stronger, weaker : stronger = (stronger - s) : (s - weaker) by volume.
 * Developers of `line` come first: others are looked at only where the line cannot reach.
 * Equals go by earliest expiry (none is last), then id. Water is never chosen.
 * @throws Problem `no_developer`, `strength_unreachable` (names the reachable range),
 *   `strength_out_of_range`
 */
export function chooseDevelopers(
  candidates: readonly MixProduct[],
  strength: Decimal,
  line?: string,
): DeveloperPart[] {
  judgeStrength(strength);
  const known = candidates
    .filter((each) => each.kind === 'developer' && (each.strength ?? each.percent))
    .map((product) => ({ product, volume: strengthOfBottle(product).volume }))
    .sort((a, b) => byExpiryThenId(a.product, b.product));
  if (known.length === 0) throw new Problem('no_developer', {}, '/developers');
  const ofLine = line === undefined ? [] : known.filter((each) => each.product.line === line);
  const chosen = blendOf(ofLine, strength) ?? blendOf(known, strength);
  if (chosen) return chosen;
  const volumes = known.map((each) => each.volume).sort((a, b) => a.comparedTo(b));
  throw new Problem(
    'strength_unreachable',
    {
      strength: canonical(strength),
      lowest: canonical(volumes[0] ?? strength),
      highest: canonical(volumes.at(-1) ?? strength),
    },
    '/strength',
  );
}

/**
 * A blend stated outright: parts by volume as given, 1 where no share is given.
 * @throws Problem `no_parts` for a share that is not above zero, `shares_miss_the_strength` where
 *   a strength was asked for as well and the shares make another
 */
export function statedDevelopers(
  stated: readonly { readonly product: MixProduct; readonly share?: Decimal | undefined }[],
  strength?: Decimal,
): DeveloperPart[] {
  const parts = stated.map(({ product, share = one }) => {
    if (!share.greaterThan(0)) throw new Problem('no_parts', { what: nameOf(product) });
    return { product, parts: share };
  });
  if (strength) {
    const made = strengthOfBlend(
      parts.map((part) => ({
        millilitres: part.parts,
        strength: strengthOfBottle(part.product),
      })),
    ).volume;
    if (!made.equals(strength)) {
      throw new Problem(
        'shares_miss_the_strength',
        { made: canonical(made.toDecimalPlaces(3)), strength: canonical(strength) },
        '/strength',
      );
    }
  }
  return parts;
}

/** True where any share is stated: the parts are then a blend, not candidates. */
export function statesShares(developers: readonly SharedPart[]): boolean {
  return developers.some((each) => each.share !== undefined);
}

interface Candidate {
  readonly product: MixProduct;
  readonly volume: Decimal;
}

/** Candidates come in the order of preference among equals. */
function blendOf(candidates: readonly Candidate[], strength: Decimal): DeveloperPart[] | undefined {
  const exact = candidates.find((each) => each.volume.equals(strength));
  if (exact) return [{ product: exact.product, parts: one }];
  const weaker = candidates
    .filter((each) => each.volume.lessThan(strength))
    .reduce<Candidate | undefined>(
      (best, each) => (best?.volume.greaterThanOrEqualTo(each.volume) ? best : each),
      undefined,
    );
  const stronger = candidates
    .filter((each) => each.volume.greaterThan(strength))
    .reduce<Candidate | undefined>(
      (best, each) => (best?.volume.lessThanOrEqualTo(each.volume) ? best : each),
      undefined,
    );
  if (!weaker || !stronger) return undefined;
  const parts = alligationAlternate(stronger.volume, weaker.volume, strength);
  return [
    { product: weaker.product, parts: parts.weaker },
    { product: stronger.product, parts: parts.stronger },
  ];
}

function byExpiryThenId(a: MixProduct, b: MixProduct): number {
  const never = '9999-12-31';
  const [left, right] = [a.expiresOn ?? never, b.expiresOn ?? never];
  if (left !== right) return left < right ? -1 : 1;
  if (a.id === b.id) return 0;
  return a.id < b.id ? -1 : 1;
}
