/** Says of every line of a plan why it is there, and what one pack fewer risks. */
import { demandCdf } from '../forecasting/demand-distribution.js';
import type { PlanNeed } from './plan-needs.js';
import { oneIn, packsInWords, plainQuantity, shortInWords } from './words.js';

/** Packs of one size of one product on one order day. */
export interface PlannedLine {
  readonly productId: string;
  readonly day: number;
  readonly packLabel: string;
  readonly packs: number;
  /** Chance of running out before what is ordered on the next order day is there. */
  readonly shortRisk: number;
  readonly oneFewerRisk: number;
  readonly why: string;
  readonly oneFewer: string;
}

/** A product that ends below what was asked for. */
export interface ShortProduct {
  readonly productId: string;
  readonly day: number;
  readonly shortRisk: number;
  readonly missing: number;
  readonly words: string;
}

/** Chance that use until the next order's delivery is more than there is then. */
export function riskAfter(need: PlanNeed, day: number, bought: number): number {
  const demand = need.facts.demands[day];
  if (!demand || !(demand.mean > 0)) return 0;
  const risk = 1 - demandCdf(need.facts.position + bought, demand);
  return Number.isFinite(risk) ? Math.min(1, Math.max(0, risk)) : 0;
}

/** The lines of one product; `until` names the day that each order day covers, `unit` its unit. */
export function linesOf(
  need: PlanNeed,
  steps: readonly number[],
  until: readonly string[],
  unit: string,
): PlannedLine[] {
  let bought = 0;
  return steps.flatMap((x, day) => {
    bought += x;
    const counts = need.packsOf[x] ?? [];
    return counts.flatMap((packs, k): PlannedLine[] => {
      const pack = need.facts.packs[k];
      if (packs === 0 || !pack) return [];
      const shortRisk = riskAfter(need, day, bought * need.step);
      const fewer = riskAfter(need, day, bought * need.step - pack.quantity);
      return [
        {
          productId: need.facts.id,
          day,
          packLabel: pack.label,
          packs,
          shortRisk,
          oneFewerRisk: fewer,
          why: why(need, day, bought, until[day] ?? '', unit),
          oneFewer: oneFewer(need, day, shortRisk, fewer, bought),
        },
      ];
    });
  });
}

function why(need: PlanNeed, day: number, bought: number, until: string, unit: string): string {
  const { facts, product } = need;
  const of = (quantity: number) => `${plainQuantity(quantity)} ${unit}`;
  const wanted = product.needs[day] ?? 0;
  const parts = [`${of(facts.position)} on the shelf and on order.`, goal(need, day, until, of)];
  const extra = bought - wanted;
  const later = (product.needs.at(-1) ?? 0) - wanted;
  if (extra > 0) parts.push(beyond(need, extra, Math.min(extra, later), unit));
  if (need.capped === 'life') {
    parts.push('More than that would partly expire before it is used: ask for a smaller pack.');
  }
  if (need.capped === 'room') parts.push('There is no room on the shelf for more.');
  if (facts.fixedPacks && day === 0) {
    parts.push(`A person set it to ${packsInWords(facts.fixedPacks.reduce((a, b) => a + b, 0))}.`);
  }
  return parts.filter((part) => part !== '').join(' ');
}

function goal(
  { facts, targets }: PlanNeed,
  day: number,
  until: string,
  of: (quantity: number) => string,
): string {
  const demand = facts.demands[day];
  const target = targets[day] ?? 0;
  if (facts.typedPoint !== null) return `The reorder point typed is ${of(facts.typedPoint)}.`;
  if (facts.keepSealed !== null) return `${packsInWords(facts.keepSealed)} to be kept sealed.`;
  if (!demand || !(demand.mean > 0)) return '';
  return (
    `About ${of(demand.mean)} are used by ${until}, and more than ${of(target)} only about one ` +
    `time in ${oneIn(1 - facts.serviceLevel)}.`
  );
}

/** Why more is bought than this order day needs. */
function beyond({ facts, step, product }: PlanNeed, extra: number, ahead: number, unit: string) {
  const more = `${plainQuantity(extra * step)} ${unit}`;
  if (product.needs.length > 1 && extra <= ahead) {
    return `${more} of it are for the order days after, bought now for the price or the freight.`;
  }
  const tier = facts.packs.some(({ tiers }) => tiers.length > 1);
  const lasts =
    facts.perDay > 0 ? ` (about ${plainQuantity((extra * step) / facts.perDay)} days)` : '';
  const reason = tier
    ? 'for the better price, or to reach the supplier’s step'
    : 'to reach the supplier’s minimum or free freight';
  return `${more} of it${lasts} are bought ahead ${reason}.`;
}

function oneFewer(
  need: PlanNeed,
  day: number,
  risk: number,
  fewer: number,
  bought: number,
): string {
  const { keepSealed, typedPoint } = need.facts;
  if (typedPoint === null && keepSealed !== null) {
    return bought > (need.product.needs[day] ?? 0)
      ? 'One pack fewer: still as many sealed as wanted.'
      : 'One pack fewer: one sealed pack fewer than wanted.';
  }
  if (fewer - risk < 0.0005) return 'One pack fewer: hardly any difference.';
  const instead = shortInWords(risk).replace(/^short /, '');
  return `One pack fewer: ${shortInWords(fewer)}, instead of ${instead}.`;
}

/** Products that end below their target on the first order day, the likeliest to run out first. */
export function shortOf(needs: readonly PlanNeed[], steps: readonly (readonly number[])[]) {
  const found = needs.flatMap((need, p): ShortProduct[] => {
    const bought = (steps[p]?.[0] ?? 0) * need.step;
    const missing = (need.targets[0] ?? 0) - need.facts.position - bought;
    if (missing <= 1e-6) return [];
    const risk = riskAfter(need, 0, bought);
    const because = { life: ' More would expire.', room: ' There is no room for more.' };
    return [
      {
        productId: need.facts.id,
        day: 0,
        shortRisk: risk,
        missing,
        words: `${capital(shortInWords(risk))}.${need.capped ? because[need.capped] : ''}`,
      },
    ];
  });
  return found.sort((a, b) => b.shortRisk - a.shortRisk);
}

function capital(text: string): string {
  return text.slice(0, 1).toUpperCase() + text.slice(1);
}

/** The next better of the usual levels: 1 in 10, 20, 50, 100, 200, 1000. */
export function comfortableLevel(level: number): number {
  return [0.9, 0.95, 0.98, 0.99, 0.995, 0.999].find((each) => each > level + 1e-9) ?? 0.9999;
}
