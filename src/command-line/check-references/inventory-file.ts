/** Checks the file of distributions, stock levels, fill rates, shelf lives and budgets. */
import { spendBudget, type BudgetItem } from '../../../shared/forecasting/budget-allocation.js';
import {
  countCdf,
  countLoss,
  countProbability,
  countQuantile,
} from '../../../shared/forecasting/count-distributions.js';
import type { Demand, DemandFamily } from '../../../shared/forecasting/demand-distribution.js';
import { errorWeights } from '../../../shared/forecasting/ets-forecast.js';
import type { EtsModel } from '../../../shared/forecasting/ets-model.js';
import {
  fillRates,
  orderUpToForFill,
  packFillRate,
  periodicFillRate,
  reorderPointForFill,
} from '../../../shared/forecasting/fill-rate.js';
import { gammaLoss, gammaQuantile } from '../../../shared/forecasting/gamma-distribution.js';
import {
  binomialLoss,
  binomialQuantile,
  newsvendor,
} from '../../../shared/forecasting/newsvendor.js';
import {
  inverseNormalLoss,
  normalCdf,
  normalDensity,
  normalLoss,
  normalQuantile,
  normalSecondLoss,
  normalSurvival,
} from '../../../shared/forecasting/normal-distribution.js';
import { etsCumulativeVariance } from '../../../shared/forecasting/protection-demand.js';
import { leadTimeDemand, serviceLevelStock } from '../../../shared/forecasting/reorder-point.js';
import { outdatingOf, shelfLifeCap } from '../../../shared/forecasting/shelf-life.js';
import {
  compareAll,
  type Compare,
  entry,
  type JsonObject,
  list,
  number,
  object,
  type Tally,
  text,
  verdict,
} from './tally.js';
import { checkTextbook } from './textbook-instances.js';

const EXACT = 1e-9;

type Row = (compare: Compare, of: JsonObject) => void;

/** How each section of the file is compared, row by row. */
const SECTIONS: Record<string, Row> = {
  qnorm: (c, of) => c('z', normalQuantile(number(of.p)), of.z, 1e-6),
  normal_z: (c, of) => {
    const z = number(of.z);
    c('cdf', normalCdf(z), of.cdf);
    c('sf', normalSurvival(z), of.sf);
    c('pdf', normalDensity(z), of.pdf);
    c('G', normalLoss(z), of.G);
    c('G2', normalSecondLoss(z), of.G2);
  },
  inverse_loss: (c, of) => c('z', inverseNormalLoss(number(of.G)), of.z, 1e-3),
  gamma: compareGamma,
  negative_binomial: (c, of) => compareCounts(c, of, number(of.var)),
  poisson: (c, of) => compareCounts(c, of, number(of.mean)),
  newsvendor: compareNewsvendor,
  safety_stock: compareSafety,
  periodic_review: comparePeriodicReview,
  fill_rate: compareFillRate,
  ets_cumulative_variance: compareCumulative,
  periodic_fill_rate: comparePeriodicFill,
  rs_nQ_fill_rate: comparePackFill,
  shelf_life: compareShelfLife,
};

/** Checks every section; sections of other names count as skipped. */
export function checkInventory(tally: Tally, file: JsonObject): void {
  for (const [name, section] of Object.entries(file)) {
    if (name === 'environment' || name === 'formulas') continue;
    if (name === 'textbook_instances') checkTextbook(tally, list(section));
    else if (name === 'budget_greedy') checkBudget(tally, object(section));
    else {
      const row = SECTIONS[name];
      list(section).forEach((value, i) => {
        if (row) entry(tally, `${name}[${i}]`, EXACT, (c) => row(c, object(value)));
        else tally.skipped++;
      });
    }
  }
}

function compareGamma(c: Compare, of: JsonObject): void {
  const shape = { shape: number(of.shape), scale: number(of.scale) };
  for (const item of list(of.quantiles).map(object)) {
    c(`quantile ${number(item.p)}`, gammaQuantile(number(item.p), shape), item.x);
  }
  for (const item of list(of.loss).map(object)) {
    c(`loss ${number(item.r)}`, gammaLoss(number(item.r), shape), item.E_short);
  }
}

function compareCounts(c: Compare, of: JsonObject, variance: number): void {
  const shape = { mean: number(of.mean), variance };
  for (const item of list(of.quantiles).map(object)) {
    const p = number(item.p);
    c(`quantile ${p}`, countQuantile(p, shape), item.k);
    c(`cdf ${p}`, countCdf(number(item.k), shape), item.cdf_at_k);
  }
  for (const item of list(of.loss).map(object)) {
    c(`loss ${number(item.r)}`, countLoss(number(item.r), shape), item.E_short);
  }
  const first = list(of.pmf_0_3).map((_, k) => countProbability(k, shape));
  compareAll(c, 'pmf', first, of.pmf_0_3);
}

function compareNewsvendor(c: Compare, of: JsonObject): void {
  const costs = { overage: number(of.overage), underage: number(of.underage) };
  const mean = number(of.mean);
  const variance = number(of.sd) ** 2;
  const answer = (family: DemandFamily): void => {
    const want = object(of[family === 'count' ? 'negative_binomial' : family]);
    const got = newsvendor(costs, { family, mean, variance });
    c(`${family}.Q`, got.quantity, want.Q);
    c(`${family}.expected_cost`, got.expectedCost, want.expected_cost);
    c(`${family}.expected_short`, got.expectedShort, want.expected_short);
    c('critical_ratio', got.criticalRatio, of.critical_ratio);
  };
  answer('normal');
  answer('gamma');
  if (variance > mean) answer('count');
  else {
    const probability = 1 - variance / mean;
    const binomial = { trials: Math.floor(mean / probability + 0.5), probability };
    const want = object(of.negative_binomial);
    const quantity = binomialQuantile(number(of.critical_ratio), binomial);
    c('binomial.Q', quantity, want.Q);
    c('binomial.expected_short', binomialLoss(quantity, binomial), want.expected_short);
  }
}

function compareSafety(c: Compare, of: JsonObject): void {
  const input = {
    mean: number(of.d),
    sd: number(of.sd),
    leadTime: number(of.L),
    leadTimeSd: number(of.sL, 0),
  };
  const demand = leadTimeDemand(input, 'normal');
  const csl = number(of.csl);
  const stock = serviceLevelStock(csl, demand);
  c('mean_L', demand.mean, of.mean_L);
  c('sigma_L', Math.sqrt(demand.variance), of.sigma_L);
  c('z', normalQuantile(csl), of.z);
  c('safety_stock', stock.safetyStock, of.safety_stock);
  c('reorder_point', stock.level, of.reorder_point);
  const gamma = serviceLevelStock(csl, leadTimeDemand(input, 'gamma'));
  c('gamma_reorder_point', gamma.level, of.gamma_reorder_point);
}

function comparePeriodicReview(c: Compare, of: JsonObject): void {
  const input = {
    mean: number(of.d),
    sd: number(of.sd),
    leadTime: number(of.L),
    review: number(of.R),
  };
  const csl = number(of.csl);
  const demand = leadTimeDemand(input, 'normal');
  const stock = serviceLevelStock(csl, demand);
  c('mean', demand.mean, of.mean);
  c('sigma', Math.sqrt(demand.variance), of.sigma);
  c('safety_stock', stock.safetyStock, of.safety_stock);
  c('order_up_to', stock.level, of.order_up_to);
  const level = (family: DemandFamily): number =>
    serviceLevelStock(csl, leadTimeDemand(input, family)).level;
  c('gamma_order_up_to', level('gamma'), of.gamma_order_up_to);
  c('negbin_order_up_to', level('count'), of.negbin_order_up_to);
}

function compareFillRate(c: Compare, of: JsonObject): void {
  const mean = number(of.mu);
  const sd = number(of.sd);
  const demand: Demand = { family: 'normal', mean, variance: sd * sd };
  const q = number(of.Q);
  if (of.ROP !== undefined) {
    const rates = fillRates(number(of.ROP), q, demand);
    const k = (number(of.ROP) - mean) / sd;
    c('k', k, of.k);
    c('CSL', normalCdf(k), of.CSL);
    c('ESC', rates.shortPerOrder, of.ESC);
    c('simple', rates.simple, of.fill_rate_simple);
    c('exact', rates.exact, of.fill_rate_exact);
    c('lost', rates.lostSales, of.fill_rate_lost_sales);
    return;
  }
  for (const [name, kind] of [
    ['simple', 'simple'],
    ['exact', 'exact'],
    ['lost_sales', 'lostSales'],
  ] as const) {
    const want = object(of[name]);
    const r = reorderPointForFill(number(of.beta), q, demand, kind);
    c(`${name}.reorder_point`, r, want.reorder_point);
    c(`${name}.k`, (r - mean) / sd, want.k, 0.1);
    c(`${name}.CSL`, normalCdf((r - mean) / sd), want.CSL);
  }
}

function compareCumulative(c: Compare, of: JsonObject): void {
  const model: EtsModel = { error: 'A', trend: 'Ad', season: 'N', period: 1 };
  const p = { alpha: number(of.alpha), beta: number(of.beta), gamma: 0, phi: number(of.phi) };
  const h = number(of.h);
  const sigma2 = number(of.sigma) ** 2;
  const weights = errorWeights(model, p, h);
  compareAll(c, 'c', weights, of.c_j);
  let sum = 1;
  const points = [sigma2, ...weights.map((w) => sigma2 * (sum += w * w))];
  compareAll(c, 'point', points, of.point_variance_h1_to_h);
  const sums = points.map((_, j) => etsCumulativeVariance(model, p, sigma2, j + 1));
  compareAll(c, 'cumulative', sums, of.cumulative_variance_1_to_h);
}

function comparePeriodicFill(c: Compare, of: JsonObject): void {
  const [l, r] = [number(of.L), number(of.R)];
  for (const family of ['normal', 'gamma'] as const) {
    const demand = { mean: number(of.d), sd: number(of.sd), family };
    c(`S_${family}`, orderUpToForFill(number(of.target), demand, l, r), of[`S_${family}`]);
    const beta = periodicFillRate(number(of.check_S), demand, l, r);
    c(`beta_${family}`, beta, of[`beta_${family}_at_check`]);
  }
}

function comparePackFill(c: Compare, of: JsonObject): void {
  for (const family of ['normal', 'gamma'] as const) {
    const demand = { mean: number(of.d), sd: number(of.sd), family };
    const beta = packFillRate(number(of.s), number(of.q), demand, number(of.L), number(of.R));
    c(`beta_${family}`, beta, of[`beta_${family}`]);
  }
}

function compareShelfLife(c: Compare, of: JsonObject): void {
  const mean = number(of.life_mean);
  const demand: Demand = { family: 'gamma', mean, variance: number(of.life_sd) ** 2 };
  const [onHand, pack] = [number(of.on_hand), number(of.pack)];
  const cap = shelfLifeCap(demand, onHand, pack, number(of.eps), number(of.omega));
  c('cap_total_eps', cap.totalByRisk, of.cap_total_eps);
  c('cap_packs_eps', cap.packsByRisk, of.cap_packs_eps);
  c('cap_packs_omega', cap.packsByOutdating, of.cap_packs_omega);
  for (const row of list(of.rows_first8).map(object)) {
    const got = outdatingOf(number(row.packs), pack, onHand, demand);
    c(`${got.packs} packs total`, got.total, row.total);
    c(`${got.packs} packs outdating`, got.expectedOutdating, row.expected_outdating);
    c(`${got.packs} packs share`, got.shareOfOrder, row.share_of_Q);
  }
}

function checkBudget(tally: Tally, of: JsonObject): void {
  const items: BudgetItem[] = list(of.items)
    .map(object)
    .map((item) => ({
      id: text(item.id),
      demand: { family: 'gamma', mean: number(item.mean), variance: number(item.sd) ** 2 },
      position: number(item.ip),
      pack: number(item.pack),
      cost: number(item.cost),
      value: number(item.value),
    }));
  const plan = spendBudget(items, number(of.budget));
  const wanted = list(of.trace).map(object);
  const order = plan.trace.map((step) => step.buy).join(' ');
  const wantedOrder = wanted.map((step) => text(step.buy)).join(' ');
  verdict(tally, order === wantedOrder, `budget_greedy: bought ${order}, not ${wantedOrder}`);
  entry(tally, 'budget_greedy', EXACT, (c) => {
    c('spent', plan.spent, of.spent);
    for (const item of items)
      c(`packs ${item.id}`, plan.packs[item.id]!, object(of.packs)[item.id]);
    wanted.forEach((step, i) => {
      c(`trace[${i}].benefit`, plan.trace[i]?.benefit ?? NaN, step.benefit);
      c(`trace[${i}].ratio`, plan.trace[i]?.ratio ?? NaN, step.ratio);
      c(`trace[${i}].left`, plan.trace[i]?.left ?? NaN, step.left, 1);
    });
  });
}
