/** Lets a request through when its caller has the right that the route names. */
import {
  createParamDecorator,
  Inject,
  Injectable,
  type CanActivate,
  type ExecutionContext,
  type OnApplicationBootstrap,
} from '@nestjs/common';
import { DiscoveryService, MetadataScanner, Reflector } from '@nestjs/core';
import { Problem } from '../../../shared/problems/problem.js';
import {
  Callers,
  mayAct,
  OPEN,
  RIGHT,
  whoMay,
  type Caller,
  type IncomingRequest,
  type Role,
} from './rights.js';

type Asked = IncomingRequest & { caller?: Caller };

@Injectable()
export class RightGuard implements CanActivate, OnApplicationBootstrap {
  constructor(
    @Inject(Reflector) private readonly reflector: Reflector,
    @Inject(Callers) private readonly callers: Callers,
    @Inject(DiscoveryService) private readonly discovery: DiscoveryService,
    @Inject(MetadataScanner) private readonly scanner: MetadataScanner,
  ) {}

  /** A route that declares no right keeps the service from starting. */
  onApplicationBootstrap(): void {
    const bare = this.discovery.getControllers().flatMap(({ instance, metatype }) => {
      if (!metatype || Reflect.hasMetadata(RIGHT, metatype)) return [];
      const prototype = Object.getPrototypeOf(instance) as Record<string, object>;
      return this.scanner
        .getAllMethodNames(prototype)
        .filter((name) => Reflect.hasMetadata('path', prototype[name] ?? {}))
        .filter((name) => !Reflect.hasMetadata(RIGHT, prototype[name] ?? {}))
        .map((name) => `${metatype.name}.${name}`);
    });
    if (bare.length > 0) throw new Error(`These routes declare no right: ${bare.join(', ')}.`);
  }

  async canActivate(context: ExecutionContext): Promise<boolean> {
    const needed = this.reflector.getAllAndOverride<Role | typeof OPEN>(RIGHT, [
      context.getHandler(),
      context.getClass(),
    ]);
    const request = context.switchToHttp().getRequest<Asked>();
    if (needed === OPEN) return true;
    const caller = await this.callers.find(request);
    if (!caller) throw new Problem('not_signed_in', {});
    if (!mayAct(caller, needed)) throw new Problem('not_your_right', { needs: whoMay(needed) });
    request.caller = caller;
    return true;
  }
}

/** The caller of a route that is not open: `@By() caller: Caller`. */
export const By = createParamDecorator((_: unknown, context: ExecutionContext): Caller => {
  const { caller } = context.switchToHttp().getRequest<Asked>();
  if (!caller) throw new Problem('not_signed_in', {});
  return caller;
});
