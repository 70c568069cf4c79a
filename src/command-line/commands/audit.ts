/** bowlworth audit: recomputes everything that must always hold and tells the first difference. */
import { InvalidArgumentError, type Command } from 'commander';

interface Words {
  readonly studio?: string;
  readonly since?: number;
  readonly json?: boolean;
}

export function auditCommand(program: Command): void {
  program
    .command('audit')
    .description('Recompute everything that must hold; exit code 1 at a difference')
    .option('--studio <name>', 'only this one')
    .option('--since <seq>', 'only movements after this number', readNumber)
    .option('--json', 'answer as JSON')
    .action(async (words: Words) => {
      const { withService } = await import('../inside.js');
      const { auditStudios } = await import('../auditing.js');
      const { answer, columns } = await import('../terminal.js');
      const reports = await withService((service) => auditStudios(service, words));
      const rows = reports.flatMap(({ studio, checks }) =>
        checks.map(({ name, ok, rows: counted, firstBreach }) => [
          ...[studio, name, ok ? 'holds' : 'BREACH', `${counted}`],
          firstBreach ?? '',
        ]),
      );
      answer(reports, columns([['studio', 'check', 'result', 'rows', ''], ...rows]), words.json);
      if (reports.some((report) => !report.ok)) process.exitCode = 1;
    });
}

function readNumber(text: string): number {
  if (/^\d{1,15}$/.test(text)) return Number.parseInt(text, 10);
  throw new InvalidArgumentError('Give the number of a movement.');
}
