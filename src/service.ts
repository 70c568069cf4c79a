/** The service put together: database, capabilities, HTTP; not yet listening. */
import { readFileSync } from 'node:fs';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import type { Logger } from 'pino';
import { AppModule } from './app.module.js';
import { SystemClock, type Clock } from './platform/clock.js';
import { openDatabase, type Opened, type OpeningOptions } from './platform/database/opening.js';
import { openLog } from './platform/http/log.js';
import { builtPage } from './platform/http/page.js';
import { Tablets } from './platform/https/trust-files.js';
import { openServer } from './platform/http/server.js';
import type { Settings } from './platform/settings.js';
import { entities, schemaSteps } from './schema.js';

/** A service that can be asked from inside, or told to listen. */
export interface Service {
  readonly app: NestFastifyApplication;
  readonly database: Opened;
  readonly clock: Clock;
  readonly log: Logger;
  /** How tablets come in over https. */
  readonly tablets: Tablets;
  /** Finishes what is under way and lets go of the database. */
  close(): Promise<void>;
}

/** Opens database and application as the settings say. */
export async function openService(
  settings: Settings,
  options: Pick<OpeningOptions, 'reached' | 'progress' | 'poolSize'> = {},
): Promise<Service> {
  const database = await openDatabase(settings, { ...options, steps: schemaSteps, entities });
  const clock = new SystemClock();
  const log = openLog(settings.logLevel);
  const tablets = new Tablets();
  try {
    const module = AppModule.of({ dataSource: database.dataSource, clock, settings, log });
    const app = await openServer(module, {
      log,
      page: builtPage(),
      tablets,
      ...certificate(settings),
    });
    const close = async () => {
      await app.close();
      await database.close();
    };
    return { app, database, clock, log, tablets, close };
  } catch (error) {
    await database.close();
    throw error;
  }
}

function certificate({ tlsCertificateFile, tlsKeyFile }: Settings) {
  if (tlsCertificateFile === undefined || tlsKeyFile === undefined) return {};
  return { tls: { cert: readFileSync(tlsCertificateFile), key: readFileSync(tlsKeyFile) } };
}
