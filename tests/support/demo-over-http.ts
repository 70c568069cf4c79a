/** Does over HTTP what the demo's story tells, each thing by the person who did it, at its time. */
import type { Demo } from '../../seed/load-demo.js';
import type { Happening } from '../../seed/happenings.js';
import { windowBench } from '../../seed/opening.js';
import { BenchesService } from '../../src/studio/people/benches.service.js';
import type { Client } from './client.js';
import type { TestService } from './studio.js';

export class DemoOverHttp {
  private readonly signedIn = new Map<string, Client>();
  private day = '';

  private constructor(
    private readonly service: TestService,
    private readonly demo: Demo,
    private readonly device: string,
    /** The lot here that stands for one of the story. */
    private readonly lotHere: (lotId: string) => Promise<string>,
  ) {}

  static async at(
    service: TestService,
    demo: Demo,
    lotHere: (lotId: string) => Promise<string>,
  ): Promise<DemoOverHttp> {
    const device = { name: 'Tablet', role: 'bench', benchId: windowBench.id } as const;
    const { token } = await service.app.get(BenchesService).makeToken(demo.studioId, device);
    return new DemoOverHttp(service, demo, token, lotHere);
  }

  /** Does one thing. */
  async happen(happening: Happening): Promise<void> {
    this.service.clock.set(happening.at);
    const client = await this.client(happening);
    for (const [path, body] of await this.calls(happening)) await client.post(path, body);
  }

  private async calls(happening: Happening): Promise<[path: string, body: object][]> {
    switch (happening.what) {
      case 'a visit begins':
        return [['/visits', happening.visit]];
      case 'a visit closes': {
        const { visitId, chairMinutes, minutes, payments, tip, uses, at: closedAt } = happening;
        const paid = { payments, ...(tip ? { tip } : {}) };
        const body = { closedAt, chairMinutes, minutes, uses, ...paid };
        return [[`/visits/${visitId}/close`, body]];
      }
      case 'a bowl is mixed':
      case 'a bowl comes late':
        return [['/bowls/record', happening.body]];
      case 'a delivery arrives':
      case 'a delivery comes late':
        return [['/deliveries', happening.body]];
      case 'a lot is thrown away': {
        const { id, why, at, line } = happening;
        const lotId = await this.lotHere(happening.lotId);
        return [['/discards', { id, why, at, lines: [{ ...line, lotId }] }]];
      }
      case 'the shelf is opened':
        return [['/openings', { id: happening.id, lines: happening.lines }]];
      case 'the shelf is counted': {
        const { id, at: countedAt, lines } = happening;
        return [['/counts', { id, countedAt, lines }]];
      }
      case 'a settlement is mended': {
        const path = `/bowls/${happening.bowlId}`;
        return [
          [`${path}/reversal`, {}],
          [`${path}/settlement`, happening.anew],
        ];
      }
      case 'a pour was another product': {
        const { id, pourId, productId, bowlId } = happening;
        return [[`/bowls/${bowlId}/other-product`, { id, pourId, productId }]];
      }
    }
  }

  /** Everybody signs in anew each day. */
  private async client({ at, personId }: Happening): Promise<Client> {
    if (at.slice(0, 10) !== this.day) this.signedIn.clear();
    this.day = at.slice(0, 10);
    const known = this.signedIn.get(personId);
    if (known) return known;
    const client = this.service.nobody.with(this.device);
    const pin = this.demo.people.find(({ id }) => id === personId)?.pin;
    await client.post('/session', { personId, pin });
    this.signedIn.set(personId, client);
    return client;
  }
}
