/** bowlworth studio: opens a studio of one's own, with its first owner. */
import { randomInt } from 'node:crypto';
import type { Command } from 'commander';

interface Words {
  readonly currency: string;
  readonly timeZone: string;
  readonly country?: string;
  readonly owner: string;
  readonly json?: boolean;
}

export function studioCommand(program: Command): void {
  program
    .command('studio')
    .description('Open a studio of your own, with its first owner')
    .argument('<name>', 'name of the studio')
    .requiredOption('--owner <name>', 'name of the owner')
    .requiredOption('--currency <code>', 'ISO 4217, such as EUR')
    .requiredOption('--time-zone <name>', 'such as Europe/Lisbon')
    .option('--country <code>', 'ISO 3166-1, such as PT')
    .option('--json', 'answer as JSON')
    .action(async (name: string, words: Words) => {
      const { withService } = await import('../inside.js');
      const { answer } = await import('../terminal.js');
      await withService(async (service) => {
        const opened = await open(service.app, name, words);
        answer(
          opened,
          [
            `${name} is open. Shown this once:`,
            `  owner  ${words.owner}, PIN ${opened.pin} (change it on the page People)`,
            `  token  ${opened.token}  (for this device; keep it secret)`,
          ],
          words.json,
        );
      });
    });
}

async function open(
  app: { get<T>(type: new (...parts: never[]) => T): T },
  name: string,
  { currency, timeZone, country, owner }: Words,
) {
  const { uuidv7 } = await import('uuidv7');
  const { StudioService } = await import('../../studio/people/studio.service.js');
  const { PeopleService } = await import('../../studio/people/people.service.js');
  const { BenchesService } = await import('../../studio/people/benches.service.js');
  const id = uuidv7();
  const facts = { id, name, currency, timeZone, country: country ?? null };
  await app.get(StudioService).open(facts);
  const pin = String(randomInt(100_000, 1_000_000));
  const first = { studioId: id, role: 'owner' as const, tokenId: id, name: 'bowlworth' };
  const caller = { ...first, personId: undefined, benchId: undefined };
  await app.get(PeopleService).add(caller, { name: owner, role: 'owner', kind: 'employed', pin });
  const made = await app.get(BenchesService).makeToken(id, { name: 'First device', role: 'bench' });
  return { studioId: id, owner, pin, token: made.token };
}
