/** Loads Saltmarsh Row, the invented studio, through the services. */
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { uuidv7 } from 'uuidv7';
import type { Clock } from '../src/platform/clock.js';
import type { Opened } from '../src/platform/database/opening.js';
import { PeopleService } from '../src/studio/people/people.service.js';
import { StudioService } from '../src/studio/people/studio.service.js';

/** What loading needs. */
export interface DemoParts {
  readonly app: NestFastifyApplication;
  readonly dataSource: Opened['dataSource'];
  readonly clock: Clock;
  readonly progress: (line: string) => void;
}

/** The studio that was loaded and how its people sign in. */
export interface Demo {
  readonly studioId: string;
  readonly people: readonly {
    readonly name: string;
    readonly role: 'owner' | 'manager' | 'stylist';
    readonly pin: string;
  }[];
}

const people: Demo['people'] = [
  { name: 'Marlow Teasel', role: 'owner', pin: '1111' },
  { name: 'Ines Cordgrass', role: 'manager', pin: '2222' },
  { name: 'Wren Tallis', role: 'stylist', pin: '3333' },
  { name: 'Sorrel Quay', role: 'stylist', pin: '4444' },
];

/** Opens the studio with its people; nothing of it is real. */
export async function loadDemo(parts: DemoParts): Promise<Demo> {
  parts.progress('Loading Saltmarsh Row, the invented studio …');
  const studioId = uuidv7();
  await parts.app.get(StudioService).open({
    id: studioId,
    name: 'Saltmarsh Row',
    currency: 'EUR',
    timeZone: 'Europe/Lisbon',
    country: 'PT',
    demo: true,
  });
  const owner = { studioId, role: 'owner' as const, tokenId: studioId, name: 'demo' };
  const caller = { ...owner, personId: undefined, benchId: undefined };
  for (const person of people) {
    await parts.app.get(PeopleService).add(caller, { kind: 'employed', ...person });
  }
  return { studioId, people };
}
