/** How often to order products of one supplier together. */

/** Cost of an order, of each product in it, holding cost per unit and year, units per year. */
export interface JointOrder {
  sharedFixedCost: number;
  items: readonly { fixedCost: number; holdingCost: number; demandRate: number }[];
}

/** Base cycle in years, each product's multiple of it, order sizes and cost per year. */
export interface JointPlan {
  baseCycle: number;
  multiples: number[];
  quantities: number[];
  costRate: number;
}

/**
 * Heuristic of Silver (1976): the product with the lowest k/(h D) is in every order, the others
 * in every m-th with m = sqrt(k/(h D) h1 D1/(K + k1)) rounded to the nearest whole number, at
 * least 1; base cycle sqrt(2 (K + sum k/m) / sum h m D).
 */
export function jointReplenishment(of: JointOrder): JointPlan {
  const ratios = of.items.map((i) => i.fixedCost / (i.holdingCost * i.demandRate));
  const lead = ratios.indexOf(Math.min(...ratios));
  const first = of.items[lead]!;
  const pull = (first.holdingCost * first.demandRate) / (of.sharedFixedCost + first.fixedCost);
  const multiples = ratios.map((r, i) =>
    i === lead ? 1 : Math.max(1, Math.floor(Math.sqrt(r * pull) + 0.5)),
  );
  let fixed = of.sharedFixedCost;
  let holding = 0;
  of.items.forEach((item, i) => {
    fixed += item.fixedCost / multiples[i]!;
    holding += item.holdingCost * multiples[i]! * item.demandRate;
  });
  const baseCycle = Math.sqrt((2 * fixed) / holding);
  return {
    baseCycle,
    multiples,
    quantities: of.items.map((item, i) => item.demandRate * multiples[i]! * baseCycle),
    costRate: Math.sqrt(2 * fixed * holding),
  };
}
