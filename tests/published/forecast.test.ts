/** Forecasting references of other libraries and textbooks, and the check's own power to fail. */
import { execFile } from 'node:child_process';
import {
  copyFileSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { scorePanel } from '../../src/command-line/check-references/panel-file.js';
import { checkFolder } from '../../src/command-line/check-references.js';
import {
  type Json,
  type JsonObject,
  list,
  object,
} from '../../src/command-line/check-references/tally.js';

const ownCopy = join('tests', 'published', 'forecast');
const scratch = mkdtempSync(join(tmpdir(), 'bowlworth-references-'));
afterAll(() => rmSync(scratch, { recursive: true }));

const read = (name: string): Json => JSON.parse(readFileSync(join(ownCopy, name), 'utf8')) as Json;

/** A folder holding a copy of one file, changed in one place. */
function folderWith(name: string, change: (file: JsonObject) => void): string {
  const folder = mkdtempSync(join(scratch, 'one-'));
  const file = object(read(name));
  change(file);
  writeFileSync(join(folder, name), JSON.stringify(file));
  return folder;
}

test('everything in our own copy holds', async () => {
  const report = await checkFolder(ownCopy);
  expect(report.lines.filter((line) => line.includes('FAILED'))).toEqual([]);
  expect(report.failed).toBe(false);
  const files = readdirSync(ownCopy).filter((name) => name.endsWith('.json'));
  for (const name of files) expect(report.lines.some((line) => line.startsWith(name))).toBe(true);
}, 120_000);

test('every data set names its source and licence', () => {
  for (const name of readdirSync(ownCopy)) {
    const content = read(name);
    for (const row of list(content)) expect(object(row).source).toBeTruthy();
    const file = object(content);
    const holders = [file.dataset, file.panel ? file : null, ...Object.values(object(file.series))];
    for (const holder of holders.map((h) => object(h ?? undefined))) {
      if (holder.values === undefined && holder.panel === undefined) continue;
      expect(holder.source).toBeTruthy();
      expect(holder.licence).toBeTruthy();
    }
  }
});

/** Errors that better methods must not exceed, and cover over all panels together. */
const wanted: [file: string, metric: 'mase' | 'rmsse', most: number][] = [
  ['bench_synth_monthly48_200.json', 'mase', 0.86],
  ['bench_momo_4weekly.json', 'mase', 0.785],
  ['bench_surveillance_weekly_counts.json', 'rmsse', 0.533],
  ['bench_synth_intermittent.json', 'rmsse', 0.82],
];

test('errors and cover on the panels are what they must be, without any allowance', () => {
  let [leads, covered] = [0, 0];
  for (const [file, metric, most] of wanted) {
    const score = scorePanel(object(read(file)));
    expect(score.metric).toBe(metric);
    expect(score[metric]).toBeLessThanOrEqual(most);
    expect(score.lead98).toBeGreaterThanOrEqual(0.95);
    leads += score.series;
    covered += score.lead98 * score.series;
    if (metric === 'mase' && score.series > 100) {
      expect(score.cov80).toBeGreaterThanOrEqual(0.78);
      expect(score.cov80).toBeLessThanOrEqual(0.85);
      expect(score.cov95).toBeGreaterThanOrEqual(0.92);
      expect(score.cov95).toBeLessThanOrEqual(0.98);
    }
  }
  expect(covered / leads).toBeGreaterThanOrEqual(0.97);
}, 60_000);

const damages: [what: string, name: string, change: (file: JsonObject) => void][] = [
  [
    'a log-likelihood one millionth off',
    'ets_Nile.json',
    (file) => {
      const model = object(object(file.models).ets_ANN);
      model.loglik = (model.loglik as number) * (1 + 1e-6);
    },
  ],
  [
    'a best likelihood no fit can reach',
    'ets_Nile.json',
    (file) => {
      const best = object(object(object(file.models).ets_MNN).best_known);
      best.loglik = (best.loglik as number) + 1;
      delete best.initstate;
    },
  ],
  [
    'a Croston rate a billionth off',
    'intermittent.json',
    (file) => {
      const models = object(object(object(file.series).hand_example_1).models);
      const croston = object(models['croston_0.1']);
      croston.mean = (croston.mean as number) * (1 + 1e-9);
    },
  ],
  [
    'a quantile of whole units one off',
    'inventory.json',
    (file) => {
      const quantile = object(list(object(list(file.poisson)[0]).quantiles)[0]);
      quantile.k = (quantile.k as number) + 1;
    },
  ],
  [
    'a reference panel twice as good as ours',
    'bench_momo_4weekly.json',
    (file) => {
      const library = object(object(file.reference)['R_forecast_8.20']);
      const ets = object(object(library.aggregate).ets);
      ets.mase = (ets.mase as number) / 2;
      const series = object(library.per_series_mase);
      series.ets = list(series.ets).map((e) => (e as number) / 2);
    },
  ],
];

test.each(damages)('%s makes the check fail', async (_what, name, change) => {
  const whole = await checkFolder(folderWith(name, () => undefined));
  expect(whole.failed).toBe(false);
  const damaged = await checkFolder(folderWith(name, change));
  expect(damaged.failed).toBe(true);
  expect(damaged.lines.join('\n')).toContain('FAILED');
});

test('an unknown file and an empty folder fail', async () => {
  const folder = mkdtempSync(join(scratch, 'odd-'));
  expect((await checkFolder(folder)).failed).toBe(true);
  copyFileSync(join(ownCopy, 'conformal.json'), join(folder, 'conformal.json'));
  expect((await checkFolder(folder)).failed).toBe(false);
  writeFileSync(join(folder, 'strange.json'), '{"colour": "copper"}');
  expect((await checkFolder(folder)).failed).toBe(true);
});

test('the command says so with exit code 1', async () => {
  const run = (folder: string) =>
    promisify(execFile)(process.execPath, ['dist/src/command-line/check-references.js', folder]);
  const [, name, change] = damages[0]!;
  await expect(run(folderWith(name, change))).rejects.toMatchObject({ code: 1 });
  await expect(run(folderWith(name, () => undefined))).resolves.toMatchObject({
    stdout: expect.stringContaining('Everything holds.') as string,
  });
}, 60_000);
