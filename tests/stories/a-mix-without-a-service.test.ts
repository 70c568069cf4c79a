/** What to pour, asked of the command on a machine that has no service and no database. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { CommandLine } from '../support/command.js';

/** Every command is a process of its own, and a machine may be busy: milliseconds. */
const patient = 120_000;

let line: CommandLine;
beforeAll(async () => (line = await CommandLine.inNewFolder()));
afterAll(() => line.remove());

const mixed = async (...words: string[]): Promise<unknown> =>
  JSON.parse(await line.answer('mix', ...words, '--json'));

test(
  'two developers make a strength between them, and no database is begun',
  async () => {
    // 13 vol lies halfway between 6 and 20: equal parts; 60 g at 3.9 % in 90 g are 2.6 %
    const words = ['--ratio', '1:2', '--powder', 'lightener', '--total', '90g'];
    const developers = ['--developer', '6', '--developer', '20', '--strength', '13'];
    expect(await mixed(...words, ...developers)).toMatchObject({
      pours: [
        { product: 'lightener', side: 'powder', grams: '30' },
        { product: 'developer 6 vol', side: 'developer', grams: '30', millilitres: '30' },
        { product: 'developer 20 vol', side: 'developer', grams: '30', millilitres: '30' },
      ],
      total: { quantity: '90', unit: 'g' },
      contents: { quantity: '90', unit: 'g' },
      strength: { volume: '13', percent: '3.9' },
      peroxidePercent: '2.6',
      assumed: [
        'The density of developer 6 vol is not known; 1 ml was counted as 1.00 g.',
        'The density of developer 20 vol is not known; 1 ml was counted as 1.00 g.',
      ],
    });
    const told = await line.answer('mix', ...words, ...developers);
    expect(told).toMatch(/^lightener +30 g\ndeveloper 6 vol +30 g +30 ml\n/);
    expect(told).toMatch(/\ntotal +90 g\ndeveloper +13 vol, 3.9 %\nperoxide +2.6 % of the whole/);
    expect(told).toMatch(/\n! .*\n.*directions, local rules and a licensed professional/);
    expect(existsSync(join(line.folder, 'postgres'))).toBe(false);
  },
  patient,
);

test(
  'a ratio by volume counts millilitres, and weighs them by the density',
  async () => {
    // 40 g to 60 ml; 60 ml at 1.02 g/ml are 61.2 g; 61.2 g at 9 % in 101.2 g are 5.4427 %
    const words = ['--ratio', '1:1.5', '--basis', 'volume', '--powder', 'Blonding powder'];
    const plan = await mixed(...words, '--developer', '30 at 1.02', '--of-powder', '40 g');
    expect(plan).toMatchObject({
      pours: [{ grams: '40' }, { grams: '61.2', millilitres: '60' }],
      total: { quantity: '101.2' },
      strength: { volume: '30', percent: '9' },
      peroxidePercent: '5.443',
      assumed: [],
    });
  },
  patient,
);

test(
  'shades share their side, and an additive comes with each started step',
  async () => {
    // 31 g of shades, two to one; two steps of 30 g are started, 2 g for each
    const shades = ['--powder', 'Shade 6 x 2', '--powder', 'Shade 7', '--kind', 'permanent'];
    const more = ['--additive', 'Drops 2 g per 30 g', '--of-powder', '31g'];
    expect(await mixed('--ratio', '1:1', ...shades, '--developer', '6 %', ...more)).toMatchObject({
      pours: [
        { product: 'Shade 6', grams: '20.667' },
        { product: 'Shade 7', grams: '10.333' },
        { product: 'developer 6 %', grams: '31' },
        { product: 'Drops', side: 'additive', grams: '4' },
      ],
      total: { quantity: '62' },
      contents: { quantity: '66' },
      strength: { volume: '20', percent: '6' },
    });
  },
  patient,
);

test(
  'a strength above the ceiling of the directions is said first',
  async () => {
    const words = ['--ratio', '1:2', '--powder', 'lightener', '--developer', '30'];
    const plan = (await mixed(
      ...[...words, '--total', '60g', '--country', 'pt'],
      ...['--contact', 'scalp', '--ceiling', '20'],
    )) as { cautions: { code: string; manner: string; text: string }[] };
    expect(plan.cautions[0]).toMatchObject({
      code: 'developer_above_ceiling',
      manner: 'interrupts',
      text: expect.stringMatching(/30 vol.*20 vol at the most on the scalp/) as string,
    });
  },
  patient,
);

const words = (said: string) => said.split(' ');

test.each<[string, number, RegExp]>([
  ['--powder lightener', 2, /Say one size/],
  ['--powder lightener --total 60g --of-powder 20g', 2, /Say one size/],
  ['--total 60g', 2, /--powder/],
  ['--powder lightener --total 60', 2, /"60" is no amount. Write it as 90g/],
  ['--powder lightener --ratio 1:2 --developer strong --total 60g', 2, /"strong" is no developer/],
  ['--powder lightener --additive Drops --total 60g', 2, /"Drops" says no amount/],
  ['--powder lightener --ratio 1:2 --developer 20 --density x --total 9g', 2, /"x" is no number/],
  ['--powder lightener --kind hay --total 60g', 2, /hay/],
  ['--powder lightener --ceiling 20 --total 60g', 2, /Say --contact too/],
  ['--powder lightener --country Portugal --total 60g', 2, /two letters/],
  ['--powder lightener --ratio 1:2 --total 60g', 1, /developer/],
  ['--powder lightener --ratio 1:2 --developer 6 --strength 13 --total 60g', 1, /13/],
  ['--powder lightener --ratio one:two --developer 6 --total 60g', 1, /"one:two"/],
])(
  'bowlworth mix %s ends with %d',
  async (said, code, sentence) => {
    expect(await line.run('mix', ...words(said))).toMatchObject({
      ...{ code, out: '' },
      err: expect.stringMatching(sentence) as string,
    });
  },
  patient,
);
