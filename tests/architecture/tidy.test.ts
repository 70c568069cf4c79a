/** The house in order: file and function length, words that have a better one, drawers, imports. */
import { execFileSync } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import ts from 'typescript';

const root = process.cwd();
const folders = ['shared', 'src', 'migrations', 'seed', 'tests'];
const longestFile = 300;
const longestFunction = 60;
const longestLine = 100;

interface Source {
  readonly path: string;
  readonly text: string;
  readonly lines: readonly string[];
}

const sources: readonly Source[] = folders.flatMap((folder) =>
  readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' })
    .filter((path) => /\.tsx?$/.test(path) && !path.endsWith('.d.ts'))
    .map((path) => {
      const text = readFileSync(join(root, folder, path), 'utf8');
      return { path: `${folder}/${path}`, text, lines: text.split('\n') };
    }),
);

/** Made by a tool from the API's description, and not read line by line. */
const generated = /^src\/browser\/api\/schema/;
const written = sources.filter(({ path }) => !generated.test(path));
/** A step of the schema is one text of SQL, read as a whole. */
const isStep = ({ path }: Source) => path.startsWith('migrations/');
/** Every text of the page in one place, for whoever translates it. */
const isCatalogueOfTexts = ({ path }: Source) => path === 'src/browser/shell/texts.ts';

test('no file is longer than a page to read at once', () => {
  const long = written
    .filter((source) => !isStep(source) && !isCatalogueOfTexts(source))
    .filter(({ lines }) => lines.length - 1 > longestFile);
  expect(long.map(({ path, lines }) => `${path}: ${lines.length - 1}`)).toEqual([]);
});

test('no line is wider than the page', () => {
  const wide = written.flatMap(({ path, lines }) =>
    lines.flatMap((line, index) => (line.length > longestLine ? [`${path}:${index + 1}`] : [])),
  );
  expect(wide).toEqual([]);
});

test('no function is longer than sixty lines', () => {
  const long = written
    .filter((source) => !isStep(source) && !source.path.startsWith('tests/'))
    .flatMap((source) => longFunctions(source));
  expect(long).toEqual([]);
});

test('every file opens with a sentence that says what it is for', () => {
  const silent = written.filter(({ text }) => !/^(#!.*\n)?\/\*\*/.test(text));
  expect(silent.map(({ path }) => path)).toEqual([]);
});

/** A word, what to write instead, and where it may stand. */
const banned: readonly [word: RegExp, instead: string, allowed: RegExp][] = [
  [/\bparseFloat\(/, 'decimal() of shared/decimal.ts', /^$/],
  [/\bas any\b|[^:]: any\b(?!\()/, 'a type', /^$/],
  [/\.only\(|\.skip\(|\bxit\(|\bxdescribe\(/, 'a test that runs', /^$/],
  [/\bTODO\b|\bFIXME\b/, 'doing it, or an issue', /^$/],
  [/@ts-ignore|@ts-expect-error|eslint-disable/, 'mending it', /^$/],
  [/\btoNumber\(/, 'a decimal to the edge', /^(shared\/forecasting|tests|src\/browser|seed)\//],
  [/\bnew Date\(/, 'src/platform/clock.ts', /^(src\/platform\/clock\.ts|tests\/|src\/browser\/)/],
];

test.each(banned)('%s is not written; use %s', (word, _instead, allowed) => {
  const found = written
    .filter(({ path }) => !allowed.test(path) && path !== 'tests/architecture/tidy.test.ts')
    .flatMap(({ path, lines }) =>
      lines.flatMap((line, index) => (word.test(line) ? [`${path}:${index + 1}`] : [])),
    );
  expect(found).toEqual([]);
});

test('there is no drawer for things without a home, and no file that only passes on', () => {
  const drawers = written.filter(({ path }) =>
    /(^|\/)(utils?|helpers?|common|misc|interfaces|dto|index)(\/|\.tsx?$)/.test(path),
  );
  expect(drawers.map(({ path }) => path)).toEqual([]);
});

test('the top level holds what is given and what tools insist on', () => {
  const given = [
    /^(README|DEVELOPERS)\.md$|^(src|migrations|tests|shared|seed)$|^\./,
    /^package(-lock)?\.json$|^tsconfig(\..+)?\.json$|^eslint\.config\.js$/,
    /^docker-compose\.yml$|^Dockerfile$/,
  ];
  const tracked = execFileSync('git', ['ls-files', '--cached', '--others', '--exclude-standard'], {
    cwd: root,
    encoding: 'utf8',
  });
  const top = new Set(tracked.split('\n').map((path) => path.split('/')[0] ?? ''));
  expect([...top].filter((name) => name && !given.some((each) => each.test(name)))).toEqual([]);
});

/** Tables that each capability writes; everybody may read all of them. */
const writers: Record<string, RegExp> = {
  people: /^(studio|person|bench|token|session|sign_in|wrong_pin|pin)\w*$/,
  catalogue:
    /^(product|pack|supplier|service|vessel|purpose|client|sensitivity_test|formula)(_\w+)?$/,
  stock: /^(journal|lot|movement|delivery|delivery_line|count_line|product_holding)(_\w+)?$/,
  scales: /^scale_check$/,
  visits: /^visit\w*$/,
  bookings: /^(booking|booking_rule|diary_change|closure)$/,
  bowls: /^(bowl|pour|weighing|settlement|caution_noted)$/,
  pricing: /^(price_sheet|quote|list_price|visit)\w*$/,
  purchasing:
    /^(purchase_order|reorder_policy|price_break|storage_limit|out_of_stock|replacement)(_\w+)?$/,
};

test('a capability writes only its own tables', () => {
  const strangers = sources.flatMap(({ path, text }) => {
    const capability = /^src\/studio\/([^/]+)\//.exec(path)?.[1];
    if (capability === undefined) return [];
    const own = writers[capability] ?? /^$/;
    return [...text.matchAll(/\b(insert into|update|delete from)\s+([a-z_]+)\b/g)]
      .filter((match) => !['set', 'of'].includes(match[2] ?? ''))
      .filter((match) => !own.test(match[2] ?? ''))
      .map((match) => `${path}: ${match[0]}`);
  });
  expect(strangers).toEqual([]);
});

test('imports point one way', () => {
  const report = () =>
    execFileSync(
      process.execPath,
      [
        'node_modules/dependency-cruiser/bin/dependency-cruise.mjs',
        ...['shared', 'src', 'migrations', 'seed', '--config', '.dependency-cruiser.cjs'],
      ],
      { cwd: root, encoding: 'utf8' },
    );
  expect(report).not.toThrow();
});

function longFunctions({ path, text }: Source): string[] {
  const file = ts.createSourceFile(path, text, ts.ScriptTarget.Latest, true);
  const found: string[] = [];
  const visit = (node: ts.Node): void => {
    if (ts.isFunctionLike(node) && 'body' in node && node.body) {
      const at = (position: number) => file.getLineAndCharacterOfPosition(position).line;
      const length = at(node.end) - at(node.getStart(file)) + 1;
      if (length > longestFunction) {
        found.push(`${relative(root, path)}:${at(node.getStart(file)) + 1}: ${length}`);
      }
    }
    ts.forEachChild(node, visit);
  };
  visit(file);
  return found;
}
