/** Places of a drawing: months from left to right, amounts from the bottom up. */

/** Steps of an axis from 0: at most `most` of them, each 1, 2, 2.5 or 5 times a power of ten. */
export function axisSteps(highest: number, most: number): number[] {
  if (highest <= 0) return [0, 1];
  const rough = highest / most;
  const power = 10 ** Math.floor(Math.log10(rough));
  const factor = [1, 2, 2.5, 5, 10].find((each) => each * power >= rough) ?? 10;
  const step = factor * power;
  const count = Math.ceil(highest / step);
  return Array.from({ length: count + 1 }, (_, index) => index * step);
}

/** Points as the path of an svg: "M0 10L20 8". */
export function pathOf(points: readonly (readonly [x: number, y: number])[]): string {
  return points
    .map(([x, y], index) => `${index === 0 ? 'M' : 'L'}${x.toFixed(1)} ${y.toFixed(1)}`)
    .join('');
}
