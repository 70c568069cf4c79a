/** Runs every reference file of a folder through shared/forecasting and prints a line for each. */
import { readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { checkEdgeCases } from './check-references/edge-cases-file.js';
import { checkIntermittent } from './check-references/intermittent-file.js';
import { checkInventory } from './check-references/inventory-file.js';
import { checkPanel } from './check-references/panel-file.js';
import {
  checkAccuracy,
  checkConformal,
  checkReconciliation,
} from './check-references/small-files.js';
import { checkSmoothing } from './check-references/smoothing-file.js';
import { checkStockList } from './check-references/stock-list-file.js';
import { type Json, list, newTally, object, type Tally } from './check-references/tally.js';

const OWN_FOLDER = 'tests/published/forecast';
/** Share of fits that must come within 0.01 of the reference's log-likelihood. */
const FITS_SHARE = 0.98;
const FIT_GAP = -0.01;
const WORST_FIT_GAP = -0.5;

/** What a run came to: the lines to print and whether everything held. */
export interface ReferenceReport {
  lines: string[];
  failed: boolean;
}

/** Checks one file by what is in it; null when it is in no known format. */
export function checkFile(name: string, content: Json): Tally | null {
  const tally = newTally(name);
  if (Array.isArray(content)) {
    if (object(content[0]).topic === undefined) return null;
    checkStockList(tally, content);
    return tally;
  }
  const file = object(content);
  if (file.dataset !== undefined && file.models !== undefined) checkSmoothing(tally, file);
  else if (file.panel !== undefined) checkPanel(tally, file);
  else if (file.qnorm !== undefined || file.textbook_instances !== undefined) {
    checkInventory(tally, file);
  } else if (Object.keys(object(file.series)).length > 0) checkIntermittent(tally, file);
  else {
    const first = object(list(file.cases)[0]);
    if (first.scores_abs_residuals !== undefined) checkConformal(tally, file);
    else if (first.S !== undefined) checkReconciliation(tally, file);
    else if (first.train !== undefined) checkAccuracy(tally, file);
    else if (first.results !== undefined) checkEdgeCases(tally, file);
    else return null;
  }
  return tally;
}

/** Checks every .json file of a folder. A folder without any known file is a failure. */
export async function checkFolder(folder: string): Promise<ReferenceReport> {
  const names = await jsonFiles(folder);
  if (names === null) return { lines: [`There is no folder ${folder} to read.`], failed: true };
  const lines: string[] = [];
  const tallies: Tally[] = [];
  let failed = false;
  for (const name of names) {
    const tally = await checkNamed(folder, name);
    if (typeof tally === 'string') {
      lines.push(tally);
      failed = true;
    } else {
      tallies.push(tally);
      lines.push(...fileLines(tally));
    }
  }
  if (tallies.length === 0) {
    return { lines: [...lines, `No reference file in ${folder}.`], failed: true };
  }
  const ending = [...fitLines(tallies), ...coverageLines(tallies)];
  lines.push(...ending.map((line) => line.text));
  failed ||= tallies.some((t) => t.failures.length > 0) || ending.some((line) => line.failed);
  lines.push(failed ? 'Not everything holds.' : 'Everything holds.');
  return { lines, failed };
}

async function jsonFiles(folder: string): Promise<string[] | null> {
  try {
    return (await readdir(folder)).filter((name) => name.endsWith('.json')).sort();
  } catch {
    return null;
  }
}

async function checkNamed(folder: string, name: string): Promise<Tally | string> {
  try {
    const content = JSON.parse(await readFile(join(folder, name), 'utf8')) as Json;
    return checkFile(name, content) ?? `${name}: in no format known here.`;
  } catch (error) {
    return `${name}: could not be checked: ${error instanceof Error ? error.message : 'unknown'}`;
  }
}

function fileLines(tally: Tally): string[] {
  const reached = tally.fits.filter((fit) => fit.gap >= FIT_GAP).length;
  const fits = tally.fits.length > 0 ? `, fits ${reached}/${tally.fits.length}` : '';
  const skipped = tally.skipped > 0 ? `, ${tally.skipped} of other methods left out` : '';
  const worst = `worst deviation ${tally.worst.toExponential(1)} (${tally.worstAt})`;
  return [
    `${tally.file}: entries ${tally.entries}, passed ${tally.passed}, ${worst}${fits}${skipped}`,
    ...tally.notes.map((note) => `    ${note}`),
    ...tally.failures.slice(0, 20).map((failure) => `    FAILED ${failure}`),
  ];
}

interface Ending {
  text: string;
  failed: boolean;
}

function fitLines(tallies: Tally[]): Ending[] {
  const fits = tallies.flatMap((tally) => tally.fits);
  if (fits.length === 0) return [];
  const reached = fits.filter((fit) => fit.gap >= FIT_GAP).length;
  const lowest = fits.reduce((a, b) => (b.gap < a.gap ? b : a));
  const share = reached / fits.length;
  const failed = share < FITS_SHARE || lowest.gap < WORST_FIT_GAP;
  const text =
    `Fits: ${reached} of ${fits.length} within 0.01 of the best likelihood known or above it ` +
    `(${(100 * share).toFixed(1)} %, 98 % wanted); ` +
    `lowest ${lowest.gap.toFixed(4)} (${lowest.name})`;
  return [{ text: failed ? `FAILED ${text}` : text, failed }];
}

function coverageLines(tallies: Tally[]): Ending[] {
  const sum = { hits80: 0, hits95: 0, trials: 0, lead98: 0, leads: 0 };
  for (const { coverage } of tallies) {
    for (const key of Object.keys(sum) as (keyof typeof sum)[]) sum[key] += coverage[key];
  }
  const lines: Ending[] = [];
  const add = (what: string, hits: number, n: number, low: number, high: number): void => {
    if (n === 0) return;
    const share = hits / n;
    const noise = 2 * Math.sqrt((share * (1 - share)) / n);
    const failed = share + noise < low || share - noise > high;
    const range = `${(100 * low).toFixed(0)} to ${(100 * high).toFixed(0)} % wanted`;
    const text = `${what}: ${(100 * share).toFixed(1)} % of ${n} (${range})`;
    lines.push({ text: failed ? `FAILED ${text}` : text, failed });
  };
  add('Inside the 80 % interval', sum.hits80, sum.trials, 0.78, 0.85);
  add('Inside the 95 % interval', sum.hits95, sum.trials, 0.92, 0.98);
  add('Lead-time demand under its 98 % quantile', sum.lead98, sum.leads, 0.97, 1);
  return lines;
}

const invoked = process.argv[1];
if (invoked !== undefined && import.meta.url === pathToFileURL(invoked).href) {
  const report = await checkFolder(process.argv[2] ?? OWN_FOLDER);
  for (const line of report.lines) console.log(line);
  process.exitCode = report.failed ? 1 : 0;
}
