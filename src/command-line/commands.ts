/** Every command of bowlworth, in the order that --help shows them. */
import type { Command } from 'commander';
import { auditCommand } from './commands/audit.js';
import { benchAgentCommand } from './commands/bench-agent.js';
import { backupCommand } from './commands/backup.js';
import { demoCommand } from './commands/demo.js';
import { exportCommand } from './commands/export.js';
import { forecastCommand } from './commands/forecast.js';
import { importCommand } from './commands/import.js';
import { migrateCommand } from './commands/migrate.js';
import { mixCommand } from './commands/mix.js';
import { restoreCommand } from './commands/restore.js';
import { serveCommand } from './commands/serve.js';
import { studioCommand } from './commands/studio.js';
import { tokenCommand } from './commands/token.js';

/** A new command's file is entered here; it loads what it needs inside of its action. */
export const commands: readonly ((program: Command) => void)[] = [
  serveCommand,
  demoCommand,
  studioCommand,
  tokenCommand,
  auditCommand,
  importCommand,
  exportCommand,
  mixCommand,
  forecastCommand,
  migrateCommand,
  backupCommand,
  restoreCommand,
  benchAgentCommand,
];
