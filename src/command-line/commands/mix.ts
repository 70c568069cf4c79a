/** bowlworth mix: what to pour for a ratio, a strength and a size, without a service. */
import { Option, type Command } from 'commander';
import type { MixWords } from '../mix/words.js';

const kinds = ['lightener', 'toner', 'permanent', 'direct', 'additive', 'care'];

export function mixCommand(program: Command): void {
  const mix = program
    .command('mix')
    .description('Plan a mix of products that you state; nothing is stored, nothing is needed')
    .option('--ratio <parts>', 'powder to developer, 1:2; without it there is no developer')
    .addOption(
      new Option('--basis <basis>', 'what the ratio counts')
        .choices(['weight', 'volume'])
        .default('weight'),
    );
  ingredients(mix)
    .option('--total <amount>', 'size: the whole, 90g')
    .option('--of-powder <amount>', 'size: of the powder side, 30g')
    .option('--of-developer <amount>', 'size: of the developer side, 60g or 60ml')
    .addOption(
      new Option('--contact <contact>', 'where it will be').choices(['scalp', 'off-scalp']),
    )
    .option('--ceiling <volume>', 'vol, from the powder’s directions for this contact')
    .option('--country <code>', 'whose peroxide rule is looked at, ISO 3166-1')
    .option('--interval <grams>', 'of the scale; tells pours that are too light for it')
    .option('--json', 'answer as JSON')
    .action(tell);
}

function ingredients(mix: Command): Command {
  return mix
    .requiredOption('--powder <name>', 'powder or cream, "Shade 6 x 2" with its share', gathered)
    .addOption(
      new Option('--kind <kind>', 'of powders whose name is no kind')
        .choices(kinds)
        .default('lightener'),
    )
    .option('--developer <strength>', '20, "6 %", "20 at 1.02" g/ml, "20 x 2"', gathered)
    .option('--density <density>', 'g/ml of developers that do not say their own')
    .option('--strength <volume>', 'vol wanted of the developer side')
    .option(
      '--additive <amount>',
      '"Drops 2 % of powder", "… 3 g", "… 2 g per 30 g"',
      gathered,
      [],
    );
}

async function tell(words: MixWords & { readonly json?: boolean }, command: Command) {
  const { WrongWord } = await import('../mix/words.js');
  const { linesOf, planStated } = await import('../mix/stated-plan.js');
  const { answer } = await import('../terminal.js');
  try {
    const plan = planStated(words);
    answer(plan, linesOf(plan), words.json);
  } catch (error) {
    if (error instanceof WrongWord) command.error(error.message, { exitCode: 2 });
    throw error;
  }
}

/** An option that is said once for each of its things. */
function gathered(text: string, before: readonly string[] = []): string[] {
  return [...before, text];
}
