/** Which packs to buy first when the money does not reach for all. */
import { type Demand, demandLoss } from './demand-distribution.js';

/** One product in the plan; value is what one unit short costs, cost the price of a pack. */
export interface BudgetItem {
  id: string;
  demand: Demand;
  position: number;
  pack: number;
  cost: number;
  value: number;
}

/** One pack bought, in the order of buying. */
export interface BudgetStep {
  buy: string;
  benefit: number;
  ratio: number;
  left: number;
}

/** Packs of each product by id, the money spent and the steps that led there. */
export interface BudgetPlan {
  packs: Record<string, number>;
  spent: number;
  trace: BudgetStep[];
}

/** Expected shortage avoided by one more pack, in money: value (E[(D-IP)+] - E[(D-IP-q)+]). */
export function packBenefit(item: BudgetItem, position: number): number {
  const { demand, pack, value } = item;
  return value * (demandLoss(position, demand) - demandLoss(position + pack, demand));
}

/**
 * Greedy by benefit per money: buys the pack with the largest benefit/cost that still fits until
 * none does. Benefits only fall from pack to pack, so no earlier choice is regretted except for
 * the last money that does not divide.
 */
export function spendBudget(items: readonly BudgetItem[], budget: number): BudgetPlan {
  const packs: Record<string, number> = {};
  const positions = items.map((item) => item.position);
  const benefits = items.map((item, i) => packBenefit(item, positions[i]!));
  for (const item of items) packs[item.id] = 0;
  const trace: BudgetStep[] = [];
  let left = budget;
  for (;;) {
    let chosen = -1;
    let ratio = 0;
    items.forEach((item, i) => {
      const r = benefits[i]! / item.cost;
      if (item.cost > 0 && item.cost <= left && r > ratio) [chosen, ratio] = [i, r];
    });
    const item = items[chosen];
    if (!item) return { packs, spent: budget - left, trace };
    left -= item.cost;
    packs[item.id]!++;
    trace.push({ buy: item.id, benefit: benefits[chosen]!, ratio, left });
    positions[chosen]! += item.pack;
    benefits[chosen] = packBenefit(item, positions[chosen]!);
  }
}
