/** `npm run check:values -- FOLDER`: runs published values through the functions of shared/. */
import { fileURLToPath } from 'node:url';
import { Command } from 'commander';
import { checkRows, type TopicReport } from './check-values/report.js';
import { topics } from './check-values/topics.js';
import { UnreadableValues, readRows } from './check-values/value-row.js';

/** The project's own copy; seen from dist/src/command-line as from src/command-line. */
const ownCopy = fileURLToPath(
  new URL(
    import.meta.url.includes('/dist/')
      ? '../../../tests/published/values'
      : '../../tests/published/values',
    import.meta.url,
  ),
);

function printed(report: TopicReport): string {
  const { topic, passed, failed, notYetSupported } = report;
  const lines = [
    `${topic}: ${passed} passed, ${failed.length} failed, ` +
      `${notYetSupported.length} not yet supported`,
    ...failed.map(({ id, expected, got }) => `  FAILED ${id}: expected ${expected}; got ${got}`),
    ...notYetSupported.map(({ id, why }) => `  not yet supported ${id}: ${why}`),
  ];
  return lines.join('\n');
}

function totalOf(reports: readonly TopicReport[]): string {
  const add = (pick: (report: TopicReport) => number): number =>
    reports.reduce((total, report) => total + pick(report), 0);
  return (
    `All topics: ${add((each) => each.passed)} passed, ` +
    `${add((each) => each.failed.length)} failed, ` +
    `${add((each) => each.notYetSupported.length)} not yet supported`
  );
}

const command = new Command('check:values')
  .description('Run published values (.json files of rows) through the functions of shared/.')
  .argument('[folder]', 'folder of value files, or one file', ownCopy)
  .option('--json', 'print the reports as JSON')
  .exitOverride((error) => process.exit(error.exitCode === 0 ? 0 : 2))
  .parse();

try {
  const reports = checkRows(readRows(command.args[0] ?? ownCopy), topics);
  if (command.opts<{ json?: boolean }>().json) {
    console.log(JSON.stringify(reports, undefined, 2));
  } else {
    for (const report of reports) console.log(printed(report));
    console.log(totalOf(reports));
  }
  process.exitCode = reports.some((report) => report.failed.length > 0) ? 1 : 0;
} catch (error) {
  if (!(error instanceof UnreadableValues)) throw error;
  console.error(error.message);
  process.exitCode = 1;
}
