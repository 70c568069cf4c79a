/** Sends an answer that was given before with the header that says so. */
import {
  Injectable,
  type CallHandler,
  type ExecutionContext,
  type NestInterceptor,
} from '@nestjs/common';
import type { FastifyReply } from 'fastify';
import { map, type Observable } from 'rxjs';
import { Answered } from '../database/once.js';

@Injectable()
export class ReplayedInterceptor implements NestInterceptor {
  intercept(context: ExecutionContext, next: CallHandler): Observable<unknown> {
    return next.handle().pipe(
      map((answer: unknown) => {
        if (!(answer instanceof Answered)) return answer;
        if (answer.replayed) {
          void context.switchToHttp().getResponse<FastifyReply>().header('Replayed', 'true');
        }
        return answer.body as unknown;
      }),
    );
  }
}
