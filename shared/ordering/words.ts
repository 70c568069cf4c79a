/** Chances and quantities in the words of a person who orders. */

/** 1/p as people say it: 0.05 -> 20, 0.047 -> 21, 0.00003 -> 33000; at least 1. */
export function oneIn(probability: number): string {
  if (!(probability > 0)) return 'very many';
  const many = Math.max(1, 1 / probability);
  const rounded = many < 100 ? +many.toFixed(0) : +many.toPrecision(2);
  return rounded.toLocaleString('en', { useGrouping: false });
}

/**
 * How often an order cycle ends short: 0 -> "practically never", 0.05 -> "about one order in 20",
 * 0.7 -> "more often than not".
 */
export function shortInWords(probability: number): string {
  if (probability < 0.0005) return 'practically never short';
  if (probability > 0.97) return 'short for certain';
  if (probability > 0.55) return 'short more often than not';
  if (probability > 0.4) return 'short about every other order';
  return `short about one order in ${oneIn(probability)}`;
}

/** Three significant digits without an exponent: 1234.6 -> "1230", 4.04 -> "4.04". */
export function plainQuantity(value: number): string {
  return (+value.toPrecision(3)).toLocaleString('en', {
    useGrouping: false,
    maximumFractionDigits: 3,
  });
}

/** "1 pack", "3 packs". */
export function packsInWords(packs: number): string {
  return packs === 1 ? '1 pack' : `${packs} packs`;
}
