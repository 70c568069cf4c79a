/** Signing in and out over HTTP; what a browser holds lies in cookies that scripts cannot read. */
import {
  Body,
  Controller,
  Delete,
  Get,
  HttpCode,
  Inject,
  Post,
  Put,
  Req,
  Res,
} from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { Problem } from '../../../shared/problems/problem.js';
import { Call, Tag } from '../../platform/http/answers.js';
import { By } from '../../platform/http/right-guard.js';
import { Open, Right, type Caller } from '../../platform/http/rights.js';
import { CallersService, deviceCookie, sessionCookie } from './callers.service.js';
import { cookieOf, deviceSeconds, keepCookie, overHttps } from './cookies.js';
import { sessionExample } from './people.examples.js';
import { DeviceRequest, NewPinRequest, SignInRequest } from './people.requests.js';
import { sessionMs, SignInService } from './sign-in.service.js';

const oneSession = { example: sessionExample, nullable: ['/person', '/bench', '/expiresAt'] };

@Tag('session')
@Controller('api/v1/session')
export class SessionController {
  constructor(
    @Inject(SignInService) private readonly signIn: SignInService,
    @Inject(CallersService) private readonly callers: CallersService,
  ) {}

  @Get('people')
  @Right('bench')
  @Call({
    summary: 'Names to choose from on this device',
    example: { items: [{ id: sessionExample.studio.id, name: 'Wren Tallis' }] },
  })
  async names(@By() caller: Caller) {
    return { items: await this.signIn.names(caller) };
  }

  @Post()
  @Right('bench')
  @Call({ summary: 'Sign in by name and PIN', status: 201, ...oneSession })
  async open(
    @By() device: Caller,
    @Body() { personId, pin }: SignInRequest,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const cookie = await this.signIn.signIn(device, personId, pin);
    keepCookie(request, reply, sessionCookie, cookie, sessionMs / 1000);
    const cookies = { ...request.cookies, [overHttps(sessionCookie)]: cookie };
    return this.viewOf({ headers: request.headers, cookies });
  }

  @Get()
  @Right('bench')
  @Call({ summary: 'Who is signed in here', ...oneSession })
  show(@By() caller: Caller, @Req() request: FastifyRequest) {
    return this.signIn.view(caller, cookieOf(request.cookies, sessionCookie));
  }

  @Delete()
  @HttpCode(204)
  @Open()
  @Call({ summary: 'Sign out', status: 204 })
  async close(
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<void> {
    await this.signIn.signOut(cookieOf(request.cookies, sessionCookie));
    void reply.clearCookie(sessionCookie, { path: '/' });
    void reply.clearCookie(overHttps(sessionCookie), { path: '/', secure: true });
  }

  @Put('device')
  @Open()
  @Call({ summary: 'Make this browser a device of the studio, by its token', ...oneSession })
  async device(
    @Body() { token }: DeviceRequest,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const view = await this.viewOf({ headers: {}, cookies: { [deviceCookie]: token } });
    keepCookie(request, reply, deviceCookie, token, deviceSeconds);
    return view;
  }

  @Put('pin')
  @HttpCode(204)
  @Right('stylist')
  @Call({ summary: 'Another PIN of one’s own', status: 204 })
  async changePin(@By() caller: Caller, @Body() { pin, newPin }: NewPinRequest): Promise<void> {
    await this.signIn.changePin(caller, pin, newPin);
  }

  private async viewOf(holding: Parameters<CallersService['find']>[0]) {
    const caller = await this.callers.find(holding);
    if (!caller) throw new Problem('not_signed_in', {});
    return this.signIn.view(caller, cookieOf(holding.cookies, sessionCookie));
  }
}
