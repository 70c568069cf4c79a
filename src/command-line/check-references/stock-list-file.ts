/** Checks a list of stock control rows, each with its topic, inputs, expected values and source. */
import {
  allUnitsDiscount,
  economicOrder,
  economicOrderWithBackorders,
  economicProduction,
  incrementalDiscount,
  orderCostRate,
} from '../../../shared/forecasting/economic-order.js';
import { orderPlusSafety } from '../../../shared/forecasting/continuous-review.js';
import { type Demand, demandLoss } from '../../../shared/forecasting/demand-distribution.js';
import { wagnerWhitin } from '../../../shared/forecasting/lot-sizing.js';
import {
  mismatchCost,
  mismatchCosts,
  newsvendor,
  newsvendorListed,
} from '../../../shared/forecasting/newsvendor.js';
import { normalLoss, normalQuantile } from '../../../shared/forecasting/normal-distribution.js';
import { leadTimeDemand, serviceLevelStock } from '../../../shared/forecasting/reorder-point.js';
import {
  compareAll,
  type Compare,
  entry,
  type Json,
  type JsonObject,
  number,
  numbers,
  object,
  type Tally,
  text,
} from './tally.js';

type Check = (compare: Compare, inputs: JsonObject, want: JsonObject) => void;

/** A number that may be written as a fraction. */
function fraction(value: Json | undefined): number {
  if (typeof value !== 'string') return number(value, NaN);
  const [top, bottom] = value.split('/').map((part) => +part);
  return top! / (bottom ?? 1);
}

function costs(of: JsonObject): { fixedCost: number; holdingCost: number; demandRate: number } {
  return {
    fixedCost: number(of.fixed_cost, number(of.setup)),
    holdingCost: number(of.holding_cost, number(of.holding)),
    demandRate: number(of.demand_rate, number(of.demand)),
  };
}

function steps(of: JsonObject): Parameters<typeof allUnitsDiscount>[0] {
  return {
    ...costs(of),
    holdingRate: number(of.holding_rate),
    breakpoints: numbers(of.breakpoints),
    unitCosts: numbers(of.unit_costs),
  };
}

function mismatch(of: JsonObject): { overage: number; underage: number } {
  if (of.price !== undefined) {
    return mismatchCosts({ price: number(of.price), cost: number(of.cost) });
  }
  return { overage: number(of.holding), underage: number(of.stockout) };
}

function compareNewsvendor(c: Compare, of: JsonObject, want: JsonObject, demand: Demand): void {
  const prices = mismatch(of);
  const best = newsvendor(prices, demand);
  const stock = number(of.S, best.quantity);
  c('S', best.quantity, want.S);
  c('Q', best.quantity, want.Q);
  c('critical_ratio', best.criticalRatio, want.critical_ratio);
  c('safety_stock', best.quantity - demand.mean, want.safety_stock);
  const cost = mismatchCost(prices, demand, stock);
  c('expected_cost', cost, want.expected_cost);
  c('expected_profit', prices.underage * demand.mean - cost, want.expected_profit);
  c('fill_rate', 1 - best.expectedShort / demand.mean, want.fill_rate);
}

const TOPICS: Record<string, Check> = {
  eoq: (c, of, want) => {
    const best = economicOrder(costs(of));
    const quantity = number(of.Q, best.quantity);
    c('Q', best.quantity, want.Q);
    c('cost_rate', orderCostRate(costs(of), quantity), want.cost_rate);
    c('cycle_months', best.quantity / costs(of).demandRate, want.cycle_months);
    c('variable_cost', best.costRate, want.variable_cost);
  },
  'eoq-backorders': (c, of, want) => {
    const got = economicOrderWithBackorders(costs(of), number(of.stockout_cost));
    c('Q', got.quantity, want.Q);
    c('stockout_fraction', got.waitingShare, want.stockout_fraction);
    c('cost_rate', got.costRate, want.cost_rate);
  },
  epq: (c, of, want) => {
    const rate = number(of.production_rate, number(of.production));
    const got = economicProduction(costs(of), rate);
    c('Q', got.quantity, want.Q);
    c('cycle', got.cycle, want.cycle);
    c('run_time', got.runTime, want.run_time);
    c('max_inventory', got.mostInStock, want.max_inventory);
    c('total_cost', got.costRate, want.total_cost);
    c('cost_rate', got.costRate, want.cost_rate);
  },
  'eoq-all-units-discount': (c, of, want) => {
    const got = allUnitsDiscount(steps(of));
    c('Q', got.quantity, want.Q);
    c('region', got.region, want.region, 1);
    c('cost_rate', got.costRate, want.cost_rate);
  },
  'eoq-incremental-discount': (c, of, want) => {
    const got = incrementalDiscount(steps(of));
    c('Q', got.quantity, want.Q);
    c('region', got.region, want.region, 1);
    c('cost_rate', got.costRate, want.cost_rate);
  },
  'rq-eoq-plus-safety': (c, of, want) => {
    const got = orderPlusSafety({
      fixedCost: number(of.fixed_cost),
      holdingCost: number(of.holding),
      stockoutCost: number(of.stockout),
      demandMean: number(of.demand_year, number(of.demand)),
      demandSd: number(of.sd_year, number(of.sd)),
      leadTime: fraction(of.lead_years ?? of.lead),
    });
    c('r', got.reorderPoint, want.r);
    c('Q', got.quantity, want.Q);
  },
  'reorder-point': (c, of, want) => {
    const input = {
      mean: number(of.daily_demand),
      sd: number(of.sd_day),
      leadTime: number(of.lead_days),
    };
    const got = serviceLevelStock(number(of.service), leadTimeDemand(input, 'normal'));
    c('safety_stock', got.safetyStock, want.safety_stock);
    c('reorder_point', got.level, want.reorder_point);
  },
  'newsvendor-normal': (c, of, want) => {
    const periods = 1 + number(of.lead_time, 0);
    const variance = number(of.sd) ** 2 * periods;
    compareNewsvendor(c, of, want, { family: 'normal', mean: number(of.mean) * periods, variance });
  },
  'newsvendor-poisson': (c, of, want) => {
    const mean = number(of.mean) * (1 + number(of.lead_time, 0));
    compareNewsvendor(c, of, want, { family: 'count', mean, variance: mean });
  },
  'newsvendor-discrete': (c, of, want) => {
    const named = /^Poisson mean ([\d.]+), S=([\d.]+)$/.exec(text(of.distribution));
    if (named) {
      const mean = +named[1]!;
      const demand: Demand = { family: 'count', mean, variance: mean };
      c('expected_cost', mismatchCost(mismatch(of), demand, +named[2]!), want.expected_cost);
      return;
    }
    const chances = Object.entries(object(of.pmf)).map(([demand, probability]) => ({
      demand: +demand,
      probability: number(probability),
    }));
    const got = newsvendorListed(mismatch(of), chances);
    c('S', got.quantity, want.S);
    c('expected_cost', got.expectedCost, want.expected_cost);
  },
  'newsvendor-ratio': (c, of, want) => {
    const got = mismatchCosts({
      price: number(of.price),
      cost: number(of.cost),
      salvage: number(of.salvage, 0),
      penalty: number(of.penalty, 0),
    });
    c('underage', got.underage, want.underage);
    c('overage', got.overage, want.overage);
    c('critical_ratio', got.criticalRatio, want.critical_ratio);
  },
  'normal-loss': (c, of, want) => {
    c('L', normalLoss(number(of.z)), want.L);
    const demand: Demand = {
      family: 'normal',
      mean: number(of.mean),
      variance: number(of.sd) ** 2,
    };
    c('n', demandLoss(number(of.x), demand), want.n);
  },
  'lot-sizing-exact': (c, of, want) => {
    const got = wagnerWhitin(numbers(of.demand), number(of.fixed), number(of.holding));
    compareAll(c, 'orders', got.orders, want.orders, 1);
    c('cost', got.cost, want.cost);
  },
  'z-table': (c, of, want) => c('z', normalQuantile(number(of.p)), want.z),
  'normal-quantile': (c, of, want) => {
    c('x', number(of.mean) + number(of.sd) * normalQuantile(number(of.p)), want.x);
  },
};

/** Half a unit of the last figure that a published value shows. */
function halfFigure(value: Json | undefined): number {
  if (typeof value !== 'number') return 0;
  const decimals = (/\.(\d+)$/.exec(`${value}`)?.[1] ?? '').length;
  return 0.5000001 * 10 ** -decimals;
}

/**
 * Checks every row of a known topic. The tolerance is the row's own (absolute), else half a unit
 * of the last published figure; computed values carry enough figures to make that strict.
 */
export function checkStockList(tally: Tally, rows: Json[]): void {
  for (const row of rows.map(object)) {
    const check = TOPICS[text(row.topic)];
    if (!check) {
      tally.skipped++;
      continue;
    }
    const own = number(row.tolerance, NaN);
    entry(tally, text(row.id), 1, (compare) => {
      const absolute: Compare = (what, got, want) => {
        if (typeof want !== 'number') return;
        const allowed = Number.isNaN(own) ? halfFigure(want) : own;
        const size = Math.max(1, Math.abs(want));
        compare(what, 1 + (got - want) / (allowed + 1e-12 * size), 1);
      };
      check(absolute, object(row.inputs), object(row.expected));
    });
  }
}
