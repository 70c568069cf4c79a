/** A serial scale straight from the page, by Web Serial; how it speaks is found out. */
import {
  conversation,
  heardBytes,
  opened,
  timePassed,
  waysToTry,
  wayOf,
  type Conversation,
  type Turn,
} from '../../../shared/scales/conversation.js';
import { choosingTrouble, noWay, openingTrouble } from './browser-trouble.js';
import { mayAskNow, serialOfBrowser, type PortOfPage, type Serial } from './devices.js';
import { PortInUse } from './port-in-use.js';
import { keepWay, keptWay } from './serial-way.js';
import { ScaleTrouble, type Heard, type ScaleSource } from './source.js';

const tickMs = 10;
const backMs = 1000;

/** Why talking over an open port ended. */
type Ending = 'next way' | 'not a scale' | 'broken';

export class SerialSource implements ScaleSource {
  readonly name = 'serial';
  readonly mayBook = true;
  private hear: (heard: Heard) => void = () => undefined;
  private talking: Conversation;
  private inUse: PortInUse | undefined;
  private closed = false;
  private spoke = false;
  private known: () => void = () => undefined;

  constructor(private readonly nowMs: () => number = () => performance.now()) {
    const kept = keptWay();
    this.talking = conversation(kept ? [kept, ...waysToTry] : waysToTry, kept !== undefined);
  }

  /** Ends when a reading has come in, or at once where it is known how the scale speaks. */
  async open(hear: (heard: Heard) => void): Promise<void> {
    const serial = serialOfBrowser();
    if (!serial) throw noWay();
    const port = await chosenPort(serial);
    this.hear = hear;
    if (!(await this.openPort(port))) throw new ScaleTrouble('in_use');
    await new Promise<void>((done, fail) => {
      this.known = done;
      if (this.talking.trusted) done();
      void this.converse(port, (trouble) => fail(new ScaleTrouble(trouble)));
    });
  }

  async close(): Promise<void> {
    this.closed = true;
    this.hear = () => undefined;
    if (!this.spoke) keepWay(undefined);
    await this.inUse?.close();
  }

  /** @returns whether it is open now */
  private async openPort(port: PortOfPage): Promise<boolean> {
    try {
      this.inUse = await PortInUse.open(port, wayOf(this.talking).line);
      return true;
    } catch (error) {
      if (openingTrouble(error).trouble === 'not_permitted') throw openingTrouble(error);
      return false;
    }
  }

  /** Talks, over a port that is opened anew for each line to try, until it is closed for good. */
  private async converse(first: PortOfPage, fail: (trouble: 'not_a_scale') => void): Promise<void> {
    let port = first;
    while (!this.closed) {
      const ending = this.inUse ? await this.talk(this.inUse) : 'broken';
      await this.inUse?.close();
      this.inUse = undefined;
      if (this.closed) return;
      if (ending === 'not a scale') {
        keepWay(undefined);
        this.hear({ type: 'lost', trouble: 'not_a_scale' });
        fail('not_a_scale');
        await port.forget?.(); // so that another one can be chosen
        return;
      }
      if (ending === 'broken') {
        this.hear({ type: 'lost', trouble: 'unplugged' });
        port = await this.untilBack(port);
      } else {
        await this.openPort(port).catch(() => false);
      }
    }
  }

  /** Plugged in again it may be another object of the browser. */
  private async untilBack(before: PortOfPage): Promise<PortOfPage> {
    const same = (port: PortOfPage) =>
      port.getInfo().usbVendorId === before.getInfo().usbVendorId &&
      port.getInfo().usbProductId === before.getInfo().usbProductId;
    for (;;) {
      const ports = (await serialOfBrowser()?.getPorts()) ?? [];
      const port = ports.find(same) ?? before;
      if (this.closed) return port;
      if (await this.openPort(port).catch(() => false)) {
        this.hear({ type: 'back' });
        return port;
      }
      await new Promise((wake) => setTimeout(wake, backMs));
    }
  }

  private talk(port: PortInUse): Promise<Ending> {
    this.talking = opened(this.talking, this.nowMs());
    return new Promise((done) => {
      let ended = false;
      const end = (ending: Ending) => {
        ended = true;
        clearInterval(ticking);
        done(ending);
      };
      const take = (turn: Turn) => {
        if (ended) return;
        this.talking = turn.state;
        if (turn.gaveUp) return end('not a scale');
        if (turn.reopen) return end('next way');
        if (turn.say !== undefined) port.write(turn.say);
        this.pass(turn);
      };
      const ticking = setInterval(() => take(timePassed(this.talking, this.nowMs())), tickMs);
      port.listen(
        (bytes) => take(heardBytes(this.talking, bytes)),
        () => end('broken'),
      );
    });
  }

  private pass({ found, state }: Turn): void {
    if (state.known && !this.spoke) {
      this.spoke = true;
      keepWay(wayOf(state));
      this.known();
    }
    for (const decoded of found) {
      if (decoded.kind === 'reading') this.hear({ type: 'reading', reading: decoded });
      else if (decoded.kind === 'damage') this.hear({ type: 'damage' });
    }
  }
}

/** One that the person has chosen before, else the one chosen now. @throws ScaleTrouble */
async function chosenPort(serial: Serial): Promise<PortOfPage> {
  const [known, ...others] = await serial.getPorts();
  if (known && others.length === 0) return known;
  if (!mayAskNow()) throw new ScaleTrouble('unplugged');
  return serial.requestPort().catch((error: unknown) => {
    throw choosingTrouble(error);
  });
}
