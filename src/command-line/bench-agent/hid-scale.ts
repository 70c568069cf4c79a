/** A USB HID scale: opened, heard report by report, looked for again when it was unplugged. */
import type { ScaleAway } from '../../../shared/contract/scales.js';
import { listen } from '../../../shared/scales/decoders.js';
import { sentenceOf, troubleOf, type AgentScale, type Ear } from './agent-scale.js';
import type { HidDriver, HidInfo, OpenHid } from './drivers.js';
import { pause, pauseMs } from './retry.js';

export class HidScale implements AgentScale {
  private told: ScaleAway | 'nothing' | 'back' = 'nothing';

  constructor(
    private readonly driver: HidDriver,
    private readonly info: Pick<HidInfo, 'vendorId' | 'productId' | 'product'>,
  ) {}

  get label(): string {
    const { vendorId, productId, product } = this.info;
    return product === undefined ? hidName(vendorId, productId) : `the USB scale “${product}”`;
  }

  async read(ear: Ear, until: AbortSignal): Promise<void> {
    let failures = 0;
    while (!until.aborted) {
      const device = await this.open(ear);
      if (!device) {
        failures += 1;
        await pause(pauseMs(failures), until);
        continue;
      }
      failures = 0;
      await this.hear(device, ear, until);
      await device.close().catch(() => undefined);
      if (!until.aborted) this.lose('unplugged', ear);
    }
  }

  /** The path of a device may be another one after it was plugged in again. */
  private async open(ear: Ear): Promise<OpenHid | undefined> {
    try {
      const { vendorId, productId } = this.info;
      const there = (await this.driver.list()).find(
        (each) => each.vendorId === vendorId && each.productId === productId,
      );
      if (there) return await this.driver.open(there.path);
      this.lose('unplugged', ear);
    } catch (error) {
      const trouble = troubleOf(error);
      // it is in the list: "cannot open" is a matter of rights or of another program
      this.lose(trouble === 'unplugged' ? 'not_permitted' : trouble, ear);
    }
    return undefined;
  }

  private hear(device: OpenHid, ear: Ear, until: AbortSignal): Promise<void> {
    this.told = 'back';
    ear.say(`Reading ${this.label}.`);
    ear.tell({ type: 'back' });
    let listening = listen('hid');
    return new Promise((done) => {
      device.onReport((report) => {
        listening = listening.feed(report);
        for (const decoded of listening.found) {
          if (decoded.kind === 'reading') ear.tell({ type: 'reading', reading: decoded });
          else if (decoded.kind === 'damage') ear.tell({ type: 'damage' });
        }
      });
      device.onClose(done);
      until.addEventListener('abort', () => done(), { once: true });
    });
  }

  private lose(trouble: ScaleAway, ear: Ear): void {
    if (this.told === trouble) return;
    this.told = trouble;
    ear.say(sentenceOf(trouble, this.label));
    ear.tell({ type: 'lost', trouble });
  }
}

/** A device by its two numbers, as on a command line: "1209:0001". */
export function hidName(vendorId: number, productId: number): string {
  return [vendorId, productId].map((id) => id.toString(16).padStart(4, '0')).join(':');
}
