/** The door to a solver of mixed-integer programs: HiGHS, in a thread of its own. */
import { createRequire } from 'node:module';
import { Worker } from 'node:worker_threads';
import type { LinearProgram } from '../../../shared/ordering/linear-program.js';

/** How far a solver may go. */
export interface SolverLimits {
  /** Stop here, in seconds, with the best found. */
  readonly seconds: number;
  /** Good enough: at most this part of the cost above the least possible one. */
  readonly gap: number;
}

/** What it found. */
export interface Solved {
  /** `within the gap`: proved to be at most `gap` above the least cost. */
  readonly outcome: 'within the gap' | 'out of time' | 'impossible';
  /** By column number; empty where it is impossible or nothing was found in time. */
  readonly values: readonly number[];
  /** By row number: what one more of its bound adds to the cost. Only without whole columns. */
  readonly duals: readonly number[];
  readonly cost: number;
  /** Least cost that is possible at all, as far as it is proved. */
  readonly bound: number;
  readonly seconds: number;
}

/** Solves one program after another; whoever asks goes on meanwhile. */
export interface Solver {
  /** @throws Error when the solver itself fails, or does not stop */
  solve(program: LinearProgram, limits: SolverLimits): Promise<Solved>;
  close(): void;
}

/**
 * HiGHS is synchronous WebAssembly: inside of the service's own thread it would keep every bench
 * waiting. The text runs in the worker; it knows nothing of ordering.
 */
const inWorker = `
const { parentPort, workerData } = require('node:worker_threads');
const loading = require(workerData.solver)();
parentPort.on('message', async ({ model: given, options }) => {
  const highs = await loading;
  const began = performance.now();
  const { modelStatus } = highs.constants;
  highs.withModel(given, (model) => {
    model.options.set(options);
    model.run();
    const status = model.getModelStatus();
    const impossible =
      status === modelStatus.infeasible || status === modelStatus.unboundedOrInfeasible;
    const found = !impossible && model.info.get('primal_solution_status') === 2;
    const whole = given.integrality.some((kind) => kind === 1);
    const solution = found ? model.getSolution() : undefined;
    const cost = found ? model.info.get('objective_function_value') : 0;
    parentPort.postMessage({
      outcome: impossible ? 'impossible'
        : status === modelStatus.optimal || status === modelStatus.empty ? 'within the gap'
        : 'out of time',
      values: solution ? Array.from(solution.colValue) : [],
      duals: solution && !whole ? Array.from(solution.rowDual) : [],
      cost,
      bound: whole ? model.info.get('mip_dual_bound') : cost,
      seconds: (performance.now() - began) / 1000,
    });
  });
});`;

/** Beyond its own limit, for starting and for reading the model. */
const patience_s = 5;

/** A solver in a thread of its own. Close it. */
export function openSolver(): Solver {
  const solver = createRequire(import.meta.url).resolve('highs');
  const worker = new Worker(inWorker, { eval: true, workerData: { solver } });
  let failed: Error | undefined;
  worker.on('error', (error: Error) => (failed = error));
  return {
    solve: (program, limits) =>
      new Promise((resolve, reject) => {
        if (failed) return reject(failed);
        const end = (work: () => void) => {
          clearTimeout(patience);
          worker.off('message', done);
          worker.off('error', fail);
          work();
        };
        const done = (solved: Solved) => end(() => resolve(solved));
        const fail = (error: Error) => end(() => reject(error));
        const patience = setTimeout(
          () => fail(new Error('The solver did not stop in time.')),
          (limits.seconds + patience_s) * 1000,
        );
        worker.on('message', done);
        worker.on('error', fail);
        const options = {
          output_flag: false,
          time_limit: limits.seconds,
          mip_rel_gap: limits.gap,
          random_seed: 1,
        };
        worker.postMessage({ model: arraysOf(program), options });
      }),
    close: () => void worker.terminate(),
  };
}

/** The program in compressed rows. */
function arraysOf({ columns, rows, offset }: LinearProgram) {
  const starts = [0];
  for (const row of rows) starts.push((starts.at(-1) ?? 0) + row.entries.length);
  return {
    numCols: columns.length,
    numRows: rows.length,
    offset,
    colCost: Float64Array.from(columns, ({ cost }) => cost),
    colLower: Float64Array.from(columns, ({ lower }) => lower),
    colUpper: Float64Array.from(columns, ({ upper }) => upper),
    integrality: Int32Array.from(columns, ({ whole }) => (whole ? 1 : 0)),
    rowLower: Float64Array.from(rows, ({ lower }) => lower),
    rowUpper: Float64Array.from(rows, ({ upper }) => upper),
    matrix: {
      format: 'csr',
      numRows: rows.length,
      numCols: columns.length,
      starts: Int32Array.from(starts),
      indices: Int32Array.from(rows.flatMap(({ entries }) => entries.map(([column]) => column))),
      values: Float64Array.from(rows.flatMap(({ entries }) => entries.map(([, factor]) => factor))),
    },
  };
}
