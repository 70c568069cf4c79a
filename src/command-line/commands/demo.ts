/** bowlworth demo: loads the invented studio beside what is there. */
import type { Command } from 'commander';

export function demoCommand(program: Command): void {
  program
    .command('demo')
    .description('Load Saltmarsh Row, an invented studio to try everything in')
    .option('--json', 'answer as JSON')
    .action(async ({ json }: { json?: boolean }) => {
      const { withService } = await import('../inside.js');
      const { loadDemoOnce } = await import('../demo.js');
      const { answer } = await import('../terminal.js');
      await withService(async (service) => {
        const demo = await loadDemoOnce(service);
        if (!demo) throw new Error('Saltmarsh Row is there already.');
        answer(
          demo,
          demo.people.map(({ name, role, pin }) => `${name}, ${role}, PIN ${pin}`),
          json,
        );
      });
    });
}
