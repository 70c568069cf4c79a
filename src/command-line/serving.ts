/** Runs the service and tells a newcomer where it is, how to sign in and what to try next. */
import type { Logger } from 'pino';
import { asOwner, studiosOf } from '../platform/database/owner.js';
import { readSettings, type Settings } from '../platform/settings.js';
import { reachDatabase } from '../platform/database/reach.js';
import { LOGGER } from '../platform/http/log.js';
import type { Service } from '../service.js';
import { openEarly } from './inside.js';
import { answer, failed, progress } from './terminal.js';

/** Starts, says so, and stops cleanly when asked to. */
export async function serve(asJson: boolean | undefined): Promise<void> {
  const settings = readSettings(process.env);
  const reached = reachDatabase(settings, { exclusive: true, progress });
  const opened = await openEarly(settings, reached);
  const { TabletDoor } = await import('./tablet-door.js');
  const door = new TabletDoor(opened, settings);
  const service = { ...opened, close: () => door.close().then(() => opened.close()) };
  const { loadDemoOnce } = await import('./demo.js');
  stopOnSignals(service);
  try {
    const studios = await asOwner(service.database.target, studiosOf);
    if (studios.length === 0 && settings.demo) await loadDemoOnce(service);
    await service.app.listen(settings.port, settings.host);
    const url = addressOf(settings, await service.app.getUrl());
    const withoutTablets = await door.open();
    if (withoutTablets !== undefined) process.stderr.write(`${withoutTablets}\n`);
    const { urls: tablets = [], rootFingerprint = null } = service.tablets.way ?? {};
    const data = { url, processId: process.pid, tablets, rootFingerprint };
    answer(data, await welcome(service, settings, url), asJson);
    makeSheets(service).catch((error: unknown) =>
      service.app
        .get<Logger>(LOGGER)
        .warn({ err: error }, 'price sheets that are due are made when they are asked for'),
    );
  } catch (error) {
    await service.close();
    throw portTaken(error, settings);
  }
}

/** Price sheets that are due, as after the demo or a file was loaded, before anybody asks. */
async function makeSheets({ app, database }: Service): Promise<void> {
  const { DueSheetsService } = await import('../studio/pricing/due-sheets.service.js');
  for (const { id } of await asOwner(database.target, studiosOf)) {
    await app.get(DueSheetsService).makeAll(id);
  }
}

async function welcome(service: Service, settings: Settings, url: string): Promise<string[]> {
  const studios = await asOwner(service.database.target, studiosOf);
  const { demoSignIn } = await import('./demo.js');
  const demo = await demoSignIn(settings);
  const { tabletLines } = await import('./tablet-door.js');
  const invented = studios.find((studio) => studio.demo);
  const line = (name: string, text: string) => `  ${name.padEnd(9)}${text}`;
  const known = invented && demo?.studioId === invented.id ? demo : undefined;
  const signIn =
    invented && known
      ? [
          line('sign in', `${url}/#device=${known.token}`),
          line('', `then choose a name of ${invented.name} (invented), each with a PIN:`),
          ...known.people.map(({ name, role, pin }) => line('', `${pin}  ${name}, ${role}`)),
        ]
      : [line('sign in', 'make a token for this device: bowlworth token "Tablet" --role bench')];
  const { OpeningService } = await import('../studio/people/opening.service.js');
  const own = studios.some((studio) => !studio.demo)
    ? []
    : [
        line('your own', `${url}/#/open-studio`),
        line(
          '',
          `from another device it asks for this code: ${service.app.get(OpeningService).code.text}`,
        ),
      ];
  return [
    'Bowlworth is ready.',
    line('here', url),
    line('calls', `${url}/api`),
    ...(studios.length > 0 ? signIn : []),
    ...own,
    ...(await tabletLines(
      service.tablets.way,
      known ? `#device=${known.token}` : '',
      process.stdout.isTTY,
    )),
    'Ctrl-C stops it.',
  ];
}

/** A host that means "everywhere" is no address to click on. */
function addressOf(settings: Settings, listening: string): string {
  const { protocol, port } = new URL(listening);
  const named = ['0.0.0.0', '::', '127.0.0.1', '::1'].includes(settings.host);
  return `${protocol}//${named ? 'localhost' : settings.host}:${port}`;
}

function portTaken(error: unknown, { port, host }: Settings): unknown {
  if ((error as { code?: string }).code !== 'EADDRINUSE') return error;
  return new Error(`Port ${port} on ${host} is taken. Stop what listens there, or set PORT.`);
}

function stopOnSignals(service: Service): void {
  let stopping = false;
  const stop = () => {
    if (stopping) process.exit(1); // asked twice: not waiting any longer
    stopping = true;
    progress('Stopping …');
    service.close().then(
      () => process.exit(0),
      (error: unknown) => process.exit(failed(error)),
    );
  };
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.on(signal, stop);
}
