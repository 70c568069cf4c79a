#!/usr/bin/env node
/** The bowlworth command: what there is to say to it; each command loads its work when called. */
import { Command, CommanderError } from 'commander';
import { commands } from './commands.js';
import { failed } from './terminal.js';

const program = new Command('bowlworth')
  .description('Weighs, deducts, prices and forecasts the bowls of a colour studio.')
  .showHelpAfterError('Say --help after a command to see its words.')
  .exitOverride();
for (const add of commands) add(program);
for (const command of program.commands) command.exitOverride();

try {
  await program.parseAsync();
} catch (error) {
  // the library has said what is wrong with the words; 0 is --help
  if (error instanceof CommanderError) process.exitCode = error.exitCode === 0 ? 0 : 2;
  else process.exitCode = failed(error);
}
