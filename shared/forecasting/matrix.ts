/** The little linear algebra that reconciliation needs, on rows of numbers. */

/** A matrix as rows of equal length. */
export type Matrix = number[][];

/** Product A B. */
export function multiply(a: Matrix, b: Matrix): Matrix {
  return a.map((row) => b[0]!.map((_, j) => row.reduce((s, x, k) => s + x * b[k]![j]!, 0)));
}

/** Transpose. */
export function transpose(a: Matrix): Matrix {
  return a[0]!.map((_, j) => a.map((row) => row[j]!));
}

/** A times a column of numbers. */
export function timesVector(a: Matrix, x: readonly number[]): number[] {
  return a.map((row) => row.reduce((s, v, k) => s + v * x[k]!, 0));
}

/** Diagonal matrix. */
export function diagonal(values: readonly number[]): Matrix {
  return values.map((v, i) => values.map((_, j) => (i === j ? v : 0)));
}

/** Solves A X = B by Gaussian elimination with row pivoting; null when A is singular. */
export function solve(a: Matrix, b: Matrix): Matrix | null {
  const n = a.length;
  const left = a.map((row) => row.slice());
  const right = b.map((row) => row.slice());
  for (let c = 0; c < n; c++) {
    let pivot = c;
    for (let r = c + 1; r < n; r++) {
      if (Math.abs(left[r]![c]!) > Math.abs(left[pivot]![c]!)) pivot = r;
    }
    if (!(Math.abs(left[pivot]![c]!) > 1e-300)) return null;
    [left[c], left[pivot]] = [left[pivot]!, left[c]!];
    [right[c], right[pivot]] = [right[pivot]!, right[c]!];
    for (let r = 0; r < n; r++) {
      if (r === c) continue;
      const factor = left[r]![c]! / left[c]![c]!;
      if (factor === 0) continue;
      for (let k = c; k < n; k++) left[r]![k]! -= factor * left[c]![k]!;
      right[r] = right[r]!.map((x, k) => x - factor * right[c]![k]!);
    }
  }
  return right.map((row, i) => row.map((x) => x / left[i]![i]!));
}
