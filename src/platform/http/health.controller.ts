/** Tells whatever keeps the service running whether it is alive, and ready for requests. */
import { Controller, Get, Inject } from '@nestjs/common';
import { Problem } from '../../../shared/problems/problem.js';
import { DatabasePulse } from '../database/pulse.js';
import { Call, Tag } from './answers.js';
import { Open } from './rights.js';

@Tag('health')
@Open()
@Controller('health')
export class HealthController {
  constructor(@Inject(DatabasePulse) private readonly database: DatabasePulse) {}

  @Get('live')
  @Call({ summary: 'The process answers', example: { status: 'up' } })
  live(): { status: 'up' } {
    return { status: 'up' };
  }

  @Get('ready')
  @Call({ summary: 'The database answers too', example: { status: 'up' } })
  async ready(): Promise<{ status: 'up' }> {
    if (!(await this.database.isUp())) throw new Problem('unavailable', { seconds: 2 });
    return { status: 'up' };
  }
}
