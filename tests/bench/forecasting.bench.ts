/** Forecast errors beside the references of every panel, and how many series a second it takes. */
import { readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { adida, imapa } from '../../shared/forecasting/aggregation.js';
import { automaticEts } from '../../shared/forecasting/ets-automatic.js';
import { croston, syntetosBoylan, tsb } from '../../shared/forecasting/intermittent.js';
import { intermittentMix } from '../../shared/forecasting/intermittent-mix.js';
import { poolErrors, poolTable } from '../../shared/forecasting/error-pool.js';
import {
  project,
  projectionQuantiles,
  type Projection,
} from '../../shared/forecasting/projection.js';
import { bestSmoothing } from '../../shared/forecasting/simple-smoothing.js';
import {
  type PanelScore,
  referenceScores,
  scorePanel,
} from '../../src/command-line/check-references/panel-file.js';
import {
  type Json,
  type JsonObject,
  list,
  number,
  numbers,
  object,
  text,
} from '../../src/command-line/check-references/tally.js';

const FOLDER = 'tests/published/forecast';
const PROBABILITIES = [0.025, 0.1, 0.5, 0.9, 0.95, 0.975];

/** Prints the two tables: errors by panel, series by second. */
export async function run(): Promise<void> {
  const names = (await readdir(FOLDER)).filter((name) => name.startsWith('bench_')).sort();
  const panels = await Promise.all(
    names.map(async (name) =>
      object(JSON.parse(await readFile(join(FOLDER, name), 'utf8')) as Json),
    ),
  );
  console.log('Forecast errors by panel (ours, then the three best of the reference libraries)');
  console.table(panels.flatMap((panel) => panelRows(panel)));
  console.log('Series a second on one core (CPU time)');
  console.table(speedRows(panels));
}

type Row = Record<string, string>;

function figure(x: number | undefined, places = 3): string {
  return x === undefined || !Number.isFinite(x) ? '-' : x.toFixed(places);
}

function panelRows(panel: JsonObject): Row[] {
  const score = scorePanel(panel);
  const best = referenceScores(panel, score.metric).slice(0, 3);
  return [ownRow(score), ...best.map(({ name }) => referenceRow(panel, name))];
}

function ownRow(score: PanelScore): Row {
  return {
    panel: `${score.panel} (${score.series})`,
    method: 'ours',
    MASE: figure(score.mase),
    RMSSE: figure(score.rmsse),
    'pinball .90': figure(score.pin90),
    'pinball .95': figure(score.pin95),
    'inside 80 %': figure(score.cov80),
    'inside 95 %': figure(score.cov95),
    'lead time .98': figure(score.lead98),
  };
}

function referenceRow(panel: JsonObject, name: string): Row {
  const of = Object.values(object(panel.reference))
    .map((library) => object(object(object(library).aggregate)[name]))
    .find((aggregate) => aggregate.mase !== undefined);
  return {
    panel: '',
    method: name,
    MASE: figure(number(of?.mase)),
    RMSSE: figure(number(of?.rmsse)),
    'pinball .90': figure(number(of?.pin90)),
    'pinball .95': figure(number(of?.pin95)),
    'inside 80 %': figure(number(of?.cov80)),
    'inside 95 %': figure(number(of?.cov95)),
    'lead time .98': '-',
  };
}

function trainOf(panels: JsonObject[], name: string): Float64Array[] {
  const panel = panels.find((p) => text(p.panel) === name) ?? {};
  return list(object(panel).series).map((s) => Float64Array.from(numbers(object(s).train)));
}

/** Runs work over the series for at least half a second of CPU and returns series a second. */
function rate(series: readonly Float64Array[], work: (y: Float64Array, i: number) => void): string {
  series.slice(0, 20).forEach(work);
  const start = process.cpuUsage();
  let done = 0;
  let used = 0;
  while (used < 5e5) {
    series.forEach(work);
    done += series.length;
    const spent = process.cpuUsage(start);
    used = spent.user + spent.system;
  }
  return ((done / used) * 1e6).toFixed(0);
}

function speedRows(panels: JsonObject[]): Row[] {
  const months = trainOf(panels, 'synth_monthly48_200');
  const sporadic = trainOf(panels, 'synth_intermittent');
  const projections: Projection[] = months.map((y) => project(y, 12, 12));
  const errors = poolErrors(projections.map((p) => p.origins));
  const table = poolTable(errors, 12, PROBABILITIES);
  const whole = (y: Float64Array, i: number, warm: boolean): void => {
    const memory = warm ? (projections[i]?.ensemble?.memory ?? null) : null;
    projectionQuantiles(project(y, 12, 12, { memory }), PROBABILITIES, errors, table);
  };
  const rows: [string, string, string][] = [
    [
      'automatic exponential smoothing, 15 models, 48 months',
      rate(months, (y) => automaticEts(y, 12)),
      '100',
    ],
    [
      'combination with backtest and intervals, cold',
      rate(months, (y, i) => whole(y, i, false)),
      '25',
    ],
    [
      'combination with backtest and intervals, warm',
      rate(months, (y, i) => whole(y, i, true)),
      '100',
    ],
    ['Croston', rate(sporadic, (y) => croston(y, 0.1)), '100000'],
    ['SBA', rate(sporadic, (y) => syntetosBoylan(y, 0.1)), '100000'],
    ['TSB', rate(sporadic, (y) => tsb(y, 0.1, 0.1)), '100000'],
    ['SES with its best alpha', rate(sporadic, (y) => bestSmoothing(y, 0.02, 0.5)), '100000'],
    ['ADIDA', rate(sporadic, (y) => adida(y)), '100000'],
    ['IMAPA', rate(sporadic, (y) => imapa(y)), '100000'],
    ['intermittent mix (TSB, IMAPA, SES)', rate(sporadic, (y) => intermittentMix(y)), '-'],
  ];
  return rows.map(([method, perSecond, wanted]) => ({
    method,
    'series/s': perSecond,
    'at least': wanted,
  }));
}
