/** A serial scale: opened, asked, heard; how it speaks is found out where nobody said. */
import type { ScaleAway } from '../../../shared/contract/scales.js';
import {
  conversation,
  heardBytes,
  opened,
  timePassed,
  wayOf,
  type Conversation,
  type Turn,
  type Way,
} from '../../../shared/scales/conversation.js';
import { serialLineText } from '../../../shared/scales/serial-line.js';
import { sentenceOf, troubleOf, type AgentScale, type Ear } from './agent-scale.js';
import type { OpenPort, SerialDriver } from './drivers.js';
import { pause, pauseMs } from './retry.js';

const tickMs = 10;
const searchAgainMs = 5_000;

/** Why talking over an open port ended. */
type Ending = 'next way' | 'not a scale' | 'broken';

export class SerialScale implements AgentScale {
  private told: ScaleAway | 'nothing' | 'back' = 'nothing';
  private talking: Conversation;

  constructor(
    private readonly driver: SerialDriver,
    readonly label: string,
    private readonly ways: readonly Way[],
    private readonly nowMs: () => number = () => performance.now(),
  ) {
    this.talking = conversation(ways);
  }

  async read(ear: Ear, until: AbortSignal): Promise<void> {
    let failures = 0;
    while (!until.aborted) {
      const port = await this.open(ear);
      if (!port) {
        failures += 1;
        await pause(pauseMs(failures), until);
        continue;
      }
      failures = 0;
      const ending = await this.talk(port, ear, until);
      await port.close().catch(() => undefined);
      if (ending === 'not a scale') {
        this.lose('not_a_scale', ear);
        this.talking = conversation(this.ways);
        await pause(searchAgainMs, until);
      } else if (ending === 'broken' && !until.aborted) {
        this.lose('unplugged', ear);
        await pause(pauseMs(1), until);
      }
    }
  }

  private async open(ear: Ear): Promise<OpenPort | undefined> {
    const { line } = wayOf(this.talking);
    try {
      return await this.driver.open({ path: this.label, ...line });
    } catch (error) {
      this.lose(troubleOf(error), ear);
      return undefined;
    }
  }

  /** Talks until the port breaks, the line must be set anew, or it is called off. */
  private talk(port: OpenPort, ear: Ear, until: AbortSignal): Promise<Ending> {
    this.talking = opened(this.talking, this.nowMs());
    if (this.ways.length === 1) this.begin(ear);
    return new Promise((done) => {
      let ended = false;
      const end = (ending: Ending) => {
        ended = true;
        clearInterval(ticking);
        until.removeEventListener('abort', calledOff);
        done(ending);
      };
      const take = (turn: Turn) => {
        if (ended) return;
        this.talking = turn.state;
        if (turn.gaveUp) return end('not a scale');
        if (turn.reopen) return end('next way');
        if (turn.say !== undefined) port.write(turn.say);
        this.pass(turn, ear);
      };
      const calledOff = () => end('broken');
      const ticking = setInterval(() => take(timePassed(this.talking, this.nowMs())), tickMs);
      until.addEventListener('abort', calledOff);
      port.onBytes((bytes) => take(heardBytes(this.talking, bytes)));
      port.onClose(calledOff);
    });
  }

  private pass({ found, state }: Turn, ear: Ear): void {
    if (state.known) this.begin(ear);
    for (const decoded of found) {
      if (decoded.kind === 'reading') ear.tell({ type: 'reading', reading: decoded });
      else if (decoded.kind === 'damage') ear.tell({ type: 'damage' });
    }
  }

  private begin(ear: Ear): void {
    if (this.told === 'back') return;
    this.told = 'back';
    const { line, decoder, ask } = wayOf(this.talking);
    const asked = ask === undefined ? 'it speaks by itself' : `asked with ${JSON.stringify(ask)}`;
    ear.say(`Reading ${this.label}: ${serialLineText(line)}, ${decoder}, ${asked}.`);
    ear.tell({ type: 'back' });
  }

  private lose(trouble: ScaleAway, ear: Ear): void {
    if (this.told === trouble) return;
    this.told = trouble;
    ear.say(sentenceOf(trouble, this.label));
    ear.tell({ type: 'lost', trouble });
  }
}
