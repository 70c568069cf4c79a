/** The README's day at the bench, call by call, with the answers it prints; its paths exist. */
import { existsSync, readFileSync } from 'node:fs';
import { aStudio, type TestStudio } from '../support/studio.js';

const readme = readFileSync('README.md', 'utf8');
const developers = readFileSync('DEVELOPERS.md', 'utf8');

interface Step {
  readonly method: 'GET' | 'POST' | 'PATCH';
  readonly path: string;
  readonly body: unknown;
  /** What the page prints of the answer, where it prints something. */
  answer?: object;
}

/** The calls of the day in their order; a JSON block belongs to the call before it. */
function steps(): Step[] {
  const day = readme.slice(readme.indexOf('## A day'), readme.indexOf('## Commands'));
  const found: Step[] = [];
  for (const [, language, text = ''] of day.matchAll(/```(sh|json)\n([\s\S]*?)```/g)) {
    if (language === 'json') {
      const last = found.at(-1);
      if (last) last.answer = JSON.parse(text) as object;
      continue;
    }
    for (const line of text.split('\n')) {
      const call = /^(post|get|patch) "?(\/[^\s"]+)"?(?: '(.*)')?$/.exec(line);
      if (!call) continue;
      const [, verb, path = '', body] = call;
      const method = verb?.toUpperCase() as Step['method'];
      found.push({ method, path, body: body === undefined ? undefined : JSON.parse(body) });
    }
  }
  return found;
}

describe('the README’s day', () => {
  let studio: TestStudio;
  beforeAll(async () => {
    studio = await aStudio({ name: 'My studio' });
    studio.clock.set('2026-03-03T18:00:00Z');
  });
  afterAll(() => studio.close());

  test('every call gives the answer that is printed', async () => {
    const all = steps();
    expect(all.length).toBeGreaterThan(12);
    expect(all.filter((step) => step.answer).length).toBeGreaterThan(5);
    for (const { method, path, body, answer } of all) {
      const given = await studio.owner.ask(method, path, body);
      expect([path, given.status < 300]).toEqual([path, true]);
      if (answer) expect(given.body).toMatchObject(answer);
    }
    await studio.audit();
  });
});

test('every script that the two pages name is in package.json', () => {
  const { scripts } = JSON.parse(readFileSync('package.json', 'utf8')) as { scripts: object };
  const named = [...`${readme}${developers}`.matchAll(/npm run (?:--silent )?([a-z:]+)/g)];
  expect(named.length).toBeGreaterThan(5);
  expect(named.map((match) => match[1] ?? '').filter((name) => !(name in scripts))).toEqual([]);
});

test('every path that the two pages name exists', () => {
  const paths = [
    ...`${readme}${developers}`.matchAll(/`((?:shared|src|tests|seed|migrations)\/[\w./-]*)`/g),
  ]
    .map((match) => match[1] ?? '')
    .filter((path) => !existsSync(path));
  expect(paths).toEqual([]);
});
