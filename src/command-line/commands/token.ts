/** bowlworth token: prints a bearer token for a program or device of the studio. */
import { Option, type Command } from 'commander';
import type { RoleName } from '../../../shared/contract/people.js';

interface Words {
  readonly role: RoleName;
  readonly studio?: string;
  readonly json?: boolean;
}

export function tokenCommand(program: Command): void {
  program
    .command('token')
    .description('Print a bearer token for a program or device; it is shown this once')
    .argument('<name>', 'what the token is for, such as "Tablet by the window"')
    .addOption(
      new Option('--role <role>', 'what it may do')
        .choices(['owner', 'manager', 'stylist', 'bench'])
        .default('owner'),
    )
    .option('--studio <name>', 'whose, where there are several studios')
    .option('--json', 'print the token with its id as JSON')
    .action(async (name: string, words: Words) => {
      const { chooseStudio, withService } = await import('../inside.js');
      const { BenchesService } = await import('../../studio/people/benches.service.js');
      const { answer } = await import('../terminal.js');
      await withService(async (service) => {
        const { id } = await chooseStudio(service, words.studio);
        const benches = service.app.get(BenchesService);
        const made = await benches.makeToken(id, { name, role: words.role });
        answer(made, [made.token], words.json);
      });
    });
}
