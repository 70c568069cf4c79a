/** Tells whatever keeps the service running whether it is alive, and ready for requests. */
import { Controller, Get, Inject } from '@nestjs/common';
import { ApiExcludeController } from '@nestjs/swagger';
import { Problem } from '../../../shared/problems/problem.js';
import { DatabasePulse } from '../database/pulse.js';
import { Open } from './rights.js';

@ApiExcludeController()
@Open()
@Controller('health')
export class HealthController {
  constructor(@Inject(DatabasePulse) private readonly database: DatabasePulse) {}

  @Get('live')
  live(): { status: 'up' } {
    return { status: 'up' };
  }

  @Get('ready')
  async ready(): Promise<{ status: 'up' }> {
    if (!(await this.database.isUp())) throw new Problem('unavailable', { seconds: 2 });
    return { status: 'up' };
  }
}
