/** bowlworth forecast: what any table of dates and amounts is likely to go on with, no server. */
import { InvalidArgumentError, Option, type Command } from 'commander';
import type { Every } from '../forecast/dated-amounts.js';

interface Words {
  readonly every: Every;
  readonly horizon: number;
  readonly unit: string;
  readonly date?: string;
  readonly amount?: string;
  readonly series?: string;
  readonly json?: boolean;
}

export function forecastCommand(program: Command): void {
  program
    .command('forecast')
    .description('Forecast a table of dates and amounts; nothing is stored, nothing is needed')
    .argument('<file>', 'CSV with a column of dates (2026-03-02 or 2026-03) and one of amounts')
    .addOption(
      new Option('--every <period>', 'add up and forecast by')
        .choices(['month', 'week', 'day'])
        .default('month'),
    )
    .option('--horizon <periods>', 'how many ahead, 1 to 60', readHorizon, 12)
    .option('--unit <word>', 'what the amounts are, for the sentence', '')
    .option('--date <column>', 'name of the column of dates')
    .option('--amount <column>', 'name of the column of amounts')
    .option('--series <column>', 'name of a column that tells series apart')
    .option('--json', 'answer as JSON')
    .action(async (file: string, words: Words) => {
      const { readFile } = await import('node:fs/promises');
      const { readDatedAmounts } = await import('../forecast/dated-amounts.js');
      const { forecastLines, forecastTable } = await import('../forecast/of-table.js');
      const { answer, progress } = await import('../terminal.js');
      const series = readDatedAmounts(await readFile(file), words.every, words);
      progress(`Forecasting ${series.length} series …`);
      const forecasts = forecastTable(series, words.every, words.horizon, words.unit);
      answer({ forecasts }, forecastLines(forecasts, words.unit), words.json);
    });
}

function readHorizon(text: string): number {
  const read = /^\d{1,2}$/.test(text) ? +text : 0;
  if (read >= 1 && read <= 60) return read;
  throw new InvalidArgumentError('Give a whole number of periods, 1 to 60.');
}
