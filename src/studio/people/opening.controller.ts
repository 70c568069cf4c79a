/** Opening the first studio of one's own over HTTP: from the studio's computer, or by a code. */
import { Body, Controller, Get, Inject, Post, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { Problem } from '../../../shared/problems/problem.js';
import { Call, Tag } from '../../platform/http/answers.js';
import { Open } from '../../platform/http/rights.js';
import { CallersService, deviceCookie, sessionCookie } from './callers.service.js';
import { deviceSeconds, keepCookie } from './cookies.js';
import { FirstStudioRequest } from './opening.requests.js';
import { OpeningService } from './opening.service.js';
import { sessionExample } from './people.examples.js';
import { sessionMs, SignInService } from './sign-in.service.js';

@Tag('studio')
@Controller('api/v1/opening')
export class OpeningController {
  constructor(
    @Inject(OpeningService) private readonly opening: OpeningService,
    @Inject(SignInService) private readonly signIn: SignInService,
    @Inject(CallersService) private readonly callers: CallersService,
  ) {}

  @Get()
  @Open()
  @Call({
    summary: 'Whether a first studio of one’s own can be opened from here',
    example: { possible: true, needsCode: false },
  })
  show(@Req() request: FastifyRequest) {
    return this.opening.view(isThisComputer(request));
  }

  @Post()
  @Open()
  @Call({
    summary: 'Open the first studio of one’s own; this browser becomes its bench',
    status: 201,
    example: sessionExample,
    nullable: ['/person', '/bench', '/expiresAt'],
  })
  async open(
    @Body() body: FirstStudioRequest,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const { device, session } = await this.opening.open(body, isThisComputer(request));
    keepCookie(request, reply, deviceCookie, device, deviceSeconds);
    keepCookie(request, reply, sessionCookie, session, sessionMs / 1000);
    const cookies = { [deviceCookie]: device, [sessionCookie]: session };
    const caller = await this.callers.find({ headers: {}, cookies });
    if (!caller) throw new Problem('not_signed_in', {});
    return this.signIn.view(caller, session);
  }
}

const loopback = /^(127\.\d+\.\d+\.\d+|::1|::ffff:127\.\d+\.\d+\.\d+)$/;
const ownNames = /^(localhost|127\.\d+\.\d+\.\d+|\[::1\])(:\d+)?$/i;

/**
 * True where the request comes from the computer that the service runs on: its sender and the
 * name it asked for are this machine, and nobody passed it on. A foreign page that had its name
 * led here would ask for its own name.
 */
function isThisComputer({ socket, headers }: FastifyRequest): boolean {
  const passedOn = headers.forwarded ?? headers['x-forwarded-for'] ?? headers.via;
  if (passedOn !== undefined) return false;
  return loopback.test(socket.remoteAddress ?? '') && ownNames.test(headers.host ?? '');
}
