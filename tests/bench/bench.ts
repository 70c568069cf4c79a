/** Every measurement, or those named: `npm run bench`, `npm run bench -- recording growth`. */
import 'reflect-metadata';
import { run as earnings } from './earnings.bench.js';
import { run as forecasting } from './forecasting.bench.js';
import { run as growth } from './growth.bench.js';
import { run as instrument } from './instrument.bench.js';
import { run as ordering } from './ordering.bench.js';
import { run as recording } from './recording.bench.js';
import { measuredStudio, type MeasuredStudio } from './studio.js';

/** Each opens the studio that is measured only if it needs it. */
type Bench = (studio: () => Promise<MeasuredStudio>) => Promise<void>;

const onStudio =
  (bench: (studio: MeasuredStudio) => Promise<void>): Bench =>
  async (studio) =>
    bench(await studio());

const benches: Record<string, Bench> = {
  instrument,
  recording: onStudio(recording),
  forecasting: onStudio(forecasting),
  ordering: onStudio(ordering),
  earnings: onStudio(earnings),
  growth: onStudio(growth),
};

const wanted = process.argv.slice(2).filter((word) => !word.startsWith('-'));
const unknown = wanted.filter((name) => !(name in benches));
if (unknown.length > 0) {
  console.error(`No bench ${unknown.join(', ')}. There are: ${Object.keys(benches).join(', ')}.`);
  process.exit(2);
}
console.log(`Node ${process.version}, ${process.arch}; every figure is a ratio of one run.`);
let opened: Promise<MeasuredStudio> | undefined;
const studio = () => (opened ??= measuredStudio());
try {
  for (const [name, bench] of Object.entries(benches)) {
    if (wanted.length === 0 || wanted.includes(name)) await bench(studio);
  }
} finally {
  await (await opened)?.close();
}
