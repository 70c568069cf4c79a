/** Checks the textbook instances of lot sizes, newsvendors and reorder policies. */
import {
  expectedShortagePolicy,
  lossFunctionPolicy,
  orderPlusSafety,
  orderWithBackorders,
  poissonReviewPolicy,
  poissonTwoLevel,
  powerApproximation,
  reviewCostRate,
} from '../../../shared/forecasting/continuous-review.js';
import {
  allUnitsDiscount,
  economicOrder,
  economicOrderWithBackorders,
} from '../../../shared/forecasting/economic-order.js';
import { jointReplenishment } from '../../../shared/forecasting/joint-replenishment.js';
import { wagnerWhitin } from '../../../shared/forecasting/lot-sizing.js';
import { newsvendor, newsvendorLogNormal } from '../../../shared/forecasting/newsvendor.js';
import {
  compareAll,
  type Compare,
  entry,
  type Json,
  type JsonObject,
  list,
  number,
  numbers,
  object,
  type Tally,
  text,
} from './tally.js';

const EXACT = 1e-9;

type Check = (compare: Compare, inputs: JsonObject, want: JsonObject) => void;

function costsOf(of: JsonObject): { fixedCost: number; holdingCost: number; demandRate: number } {
  return {
    fixedCost: number(of.fixed_cost),
    holdingCost: number(of.holding_cost),
    demandRate: number(of.demand_rate),
  };
}

function reviewOf(of: JsonObject): Parameters<typeof orderPlusSafety>[0] {
  return {
    fixedCost: number(of.fixed_cost),
    holdingCost: number(of.holding_cost),
    stockoutCost: number(of.stockout_cost),
    demandMean: number(of.demand_mean),
    demandSd: number(of.demand_sd, 0),
    leadTime: number(of.lead_time, 0),
  };
}

function mismatchOf(of: JsonObject): { overage: number; underage: number } {
  return { overage: number(of.holding_cost), underage: number(of.stockout_cost) };
}

const CHECKS: Record<string, Check> = {
  EOQ: (c, inputs, want) => {
    const got = economicOrder(costsOf(inputs));
    c('Q', got.quantity, want.Q);
    c('cost', got.costRate, want.cost);
  },
  EOQB: (c, inputs, want) => {
    const got = economicOrderWithBackorders(costsOf(inputs), number(inputs.stockout_cost));
    c('Q', got.quantity, want.Q);
    c('stockout_fraction', got.waitingShare, want.stockout_fraction);
    c('cost', got.costRate, want.cost);
  },
  all_units_discounts: (c, inputs, want) => {
    const got = allUnitsDiscount({
      ...costsOf(inputs),
      holdingRate: number(inputs.holding_cost_rate),
      breakpoints: numbers(inputs.breakpoints),
      unitCosts: numbers(inputs.unit_costs),
    });
    c('Q', got.quantity, want.Q);
    c('region', got.region, want.region);
    c('cost', got.costRate, want.cost);
  },
  wagner_whitin: (c, inputs, want) => {
    const demand = numbers(inputs.demand);
    const got = wagnerWhitin(demand, number(inputs.fixed_cost), number(inputs.holding_cost));
    compareAll(c, 'orders', [0, ...got.orders], want.order_quantities_1indexed, 1);
    c('cost', got.cost, want.cost);
    compareAll(c, 'costs_to_go', [0, ...got.costToGo], want.costs_to_go, 1);
    const next = [0, ...got.nextOrder.map((i) => i + 1)];
    compareAll(c, 'next_order_periods', next, want.next_order_periods, 1);
  },
  newsvendor_normal: (c, inputs, want) => {
    const periods = 1 + number(inputs.lead_time, 0);
    const mean = number(inputs.demand_mean) * periods;
    const variance = number(inputs.demand_sd) ** 2 * periods;
    const got = newsvendor(mismatchOf(inputs), { family: 'normal', mean, variance });
    c('S', got.quantity, want.S);
    c('cost', got.expectedCost, want.cost);
  },
  newsvendor_poisson: (c, inputs, want) => {
    const mean = number(inputs.demand_mean) * (1 + number(inputs.lead_time, 0));
    const got = newsvendor(mismatchOf(inputs), { family: 'count', mean, variance: mean });
    c('S', got.quantity, want.S);
    c('cost', got.expectedCost, want.cost);
  },
  newsvendor_lognormal: (c, inputs, want) => {
    const got = newsvendorLogNormal(mismatchOf(inputs), number(inputs.mu), number(inputs.sigma));
    c('S', got.quantity, want.S);
    // The printed cost was integrated numerically; the closed form gives its first eight figures.
    c('cost', got.expectedCost, want.cost, 10 * got.expectedCost);
  },
  sS_poisson_exact: (c, inputs, want) => {
    const got = poissonTwoLevel(reviewOf(inputs));
    c('s', got.bottom, want.s);
    c('S', got.top, want.S);
    c('cost', got.costRate, want.cost);
  },
  sS_power_approximation: (c, inputs, want) => {
    const got = powerApproximation(reviewOf(inputs));
    c('s', got.bottom, want.s);
    c('S', got.top, want.S);
  },
  rQ_eil_approximation: (c, inputs, want) => {
    const got = expectedShortagePolicy(reviewOf(inputs));
    comparePolicy(c, got, want);
    c('cost', got.costRate, want.cost);
  },
  rQ_eoqb_approximation: (c, inputs, want) => {
    const got = orderWithBackorders(reviewOf(inputs));
    // The printed r was searched for; at ours both costs agree to the last figure.
    c('r', got.reorderPoint, want.r, 10 * Math.abs(got.reorderPoint));
    c('Q', got.quantity, want.Q);
  },
  rQ_eoqss_approximation: (c, inputs, want) =>
    comparePolicy(c, orderPlusSafety(reviewOf(inputs)), want),
  rQ_loss_function_approximation: (c, inputs, want) =>
    comparePolicy(c, lossFunctionPolicy(reviewOf(inputs)), want),
  rQ_cost_at_eoqss: (c, inputs, want) => {
    const input = reviewOf(inputs);
    const policy = orderPlusSafety(input);
    comparePolicy(c, policy, want);
    c('cost', reviewCostRate(input, policy), want.cost);
  },
  rQ_poisson_exact: (c, inputs, want) => {
    const got = poissonReviewPolicy(reviewOf(inputs));
    comparePolicy(c, got, want);
    c('cost', got.costRate, want.cost);
  },
  jrp_silver_heuristic: (c, inputs, want) => {
    const fixed = numbers(inputs.individual_fixed_costs);
    const holding = numbers(inputs.holding_costs);
    const got = jointReplenishment({
      sharedFixedCost: number(inputs.shared_fixed_cost),
      items: numbers(inputs.demand_rates).map((demandRate, i) => ({
        fixedCost: fixed[i]!,
        holdingCost: holding[i]!,
        demandRate,
      })),
    });
    const [quantities, cycle, multiples, cost] = list(want.result);
    compareAll(c, 'Q', got.quantities, quantities);
    c('T', got.baseCycle, cycle);
    compareAll(c, 'm', got.multiples, multiples);
    c('cost', got.costRate, cost);
  },
};

function comparePolicy(
  c: Compare,
  got: { reorderPoint: number; quantity: number },
  want: JsonObject,
): void {
  c('r', got.reorderPoint, want.r);
  c('Q', got.quantity, want.Q);
}

/** Checks every result of every instance; results of other names count as skipped. */
export function checkTextbook(tally: Tally, instances: Json[]): void {
  for (const instance of instances.map(object)) {
    const inputs = object(instance.inputs);
    for (const [name, want] of Object.entries(object(instance.results))) {
      const check = CHECKS[name];
      const label = `${text(instance.name)}.${name}`;
      if (check) entry(tally, label, EXACT, (c) => check(c, inputs, object(want)));
      else tally.skipped++;
    }
  }
}
