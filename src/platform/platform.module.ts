/** What every capability stands on: database, clock, settings, log, rights, once. */
import { Module, type DynamicModule } from '@nestjs/common';
import { APP_FILTER, APP_GUARD, APP_INTERCEPTOR, APP_PIPE, DiscoveryModule } from '@nestjs/core';
import type { Logger } from 'pino';
import { Clock } from './clock.js';
import { DatabaseModule } from './database/database.module.js';
import { HealthController } from './http/health.controller.js';
import { LOGGER } from './http/log.js';
import { ProblemFilter } from './http/problem-filter.js';
import { ReplayedInterceptor } from './http/replayed.js';
import { RequestPipe } from './http/request-pipe.js';
import { RightGuard } from './http/right-guard.js';
import { SETTINGS, type Settings } from './settings.js';

/** What the service is made of before any capability. */
export interface PlatformParts {
  readonly dataSource: Parameters<typeof DatabaseModule.of>[0];
  readonly clock: Clock;
  readonly settings: Settings;
  readonly log: Logger;
}

@Module({})
export class PlatformModule {
  static of(parts: PlatformParts): DynamicModule {
    return {
      module: PlatformModule,
      global: true,
      imports: [DiscoveryModule, DatabaseModule.of(parts.dataSource)],
      controllers: [HealthController],
      providers: [
        { provide: Clock, useValue: parts.clock },
        { provide: SETTINGS, useValue: parts.settings },
        { provide: LOGGER, useValue: parts.log },
        ProblemFilter,
        { provide: APP_FILTER, useExisting: ProblemFilter },
        { provide: APP_GUARD, useClass: RightGuard },
        { provide: APP_PIPE, useClass: RequestPipe },
        { provide: APP_INTERCEPTOR, useClass: ReplayedInterceptor },
      ],
      exports: [Clock, SETTINGS, LOGGER, ProblemFilter],
    };
  }
}
