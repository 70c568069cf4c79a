/** People, benches, tokens, signing in, and the studio itself. */
import { Global, Module } from '@nestjs/common';
import { Callers } from '../../platform/http/rights.js';
import { BenchesController } from './benches.controller.js';
import { BenchesService } from './benches.service.js';
import { CallersService } from './callers.service.js';
import { OpeningController } from './opening.controller.js';
import { OpeningService } from './opening.service.js';
import { PeopleController } from './people.controller.js';
import { PeopleService } from './people.service.js';
import { SessionController } from './session.controller.js';
import { SignInService } from './sign-in.service.js';
import { StudioController } from './studio.controller.js';
import { StudioService } from './studio.service.js';

@Global()
@Module({
  controllers: [
    PeopleController,
    BenchesController,
    SessionController,
    StudioController,
    OpeningController,
  ],
  providers: [
    PeopleService,
    BenchesService,
    SignInService,
    StudioService,
    CallersService,
    OpeningService,
    { provide: Callers, useExisting: CallersService },
  ],
  exports: [PeopleService, BenchesService, StudioService, OpeningService, Callers],
})
export class PeopleModule {}
