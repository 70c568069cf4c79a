/** A USB HID scale (usage page 0x8D) straight from the page, by WebHID. */
import { listen, type Listening } from '../../../shared/scales/decoders.js';
import { choosingTrouble, noWay, openingTrouble } from './browser-trouble.js';
import {
  hidOfBrowser,
  mayAskNow,
  type Hid,
  type HidDevice,
  type HidReportEvent,
} from './devices.js';
import { ScaleTrouble, type Heard, type ScaleSource } from './source.js';

const weighingPage = 0x8d;
/** Usage "data weight" of that page, as WebHID numbers usages. */
const dataWeight = (weighingPage << 16) | 0x40;
/** Ids of data reports seen at devices; a device without ids says 0. */
const usualReportIds = [0, 3, 4];

export class HidSource implements ScaleSource {
  readonly name = 'hid';
  readonly mayBook = true;
  private hear: (heard: Heard) => void = () => undefined;
  private device: HidDevice | undefined;
  private reportIds: readonly number[] = usualReportIds;
  private listening: Listening = listen('hid');

  async open(hear: (heard: Heard) => void): Promise<void> {
    const hid = hidOfBrowser();
    if (!hid) throw noWay();
    const device = await chosenDevice(hid);
    this.hear = hear;
    await this.begin(device).catch((error: unknown) => {
      throw openingTrouble(error);
    });
    hid.addEventListener('disconnect', this.left);
    hid.addEventListener('connect', this.came);
  }

  async close(): Promise<void> {
    const hid = hidOfBrowser();
    hid?.removeEventListener('disconnect', this.left);
    hid?.removeEventListener('connect', this.came);
    this.hear = () => undefined;
    this.device?.removeEventListener('inputreport', this.reported);
    await this.device?.close();
    this.device = undefined;
  }

  private async begin(device: HidDevice): Promise<void> {
    if (!device.opened) await device.open();
    this.device?.removeEventListener('inputreport', this.reported);
    this.device = device;
    this.listening = listen('hid');
    this.reportIds = dataReportIds(device);
    device.addEventListener('inputreport', this.reported);
  }

  private readonly reported = (event: Event): void => {
    const { reportId, data } = event as HidReportEvent;
    if (!this.reportIds.includes(reportId)) return;
    // the decoder knows a data report by the id in front, which WebHID keeps beside it
    const report = new Uint8Array(data.byteLength + 1);
    report[0] = reportId === 4 ? 4 : 3;
    report.set(new Uint8Array(data.buffer, data.byteOffset, data.byteLength), 1);
    this.listening = this.listening.feed(report);
    for (const found of this.listening.found) {
      if (found.kind === 'reading') this.hear({ type: 'reading', reading: found });
      else if (found.kind === 'damage') this.hear({ type: 'damage' });
    }
  };

  private readonly left = (event: Event): void => {
    if ((event as HidReportEvent).device !== this.device) return;
    this.hear({ type: 'lost', trouble: 'unplugged' });
  };

  /** Plugged in again it may be another object of the browser. */
  private readonly came = (event: Event): void => {
    const { device } = event as HidReportEvent;
    const { vendorId, productId } = this.device ?? {};
    if (device.vendorId !== vendorId || device.productId !== productId) return;
    this.begin(device).then(
      () => this.hear({ type: 'back' }),
      (error: unknown) => this.hear({ type: 'lost', trouble: openingTrouble(error).trouble }),
    );
  };
}

/** One that the person has chosen before, else the one chosen now. @throws ScaleTrouble */
async function chosenDevice(hid: Hid): Promise<HidDevice> {
  const known = (await hid.getDevices()).find(isScale);
  if (known) return known;
  // opened by itself after a reload: the scale that was chosen is not plugged in
  if (!mayAskNow()) throw new ScaleTrouble('unplugged');
  const filters = [{ usagePage: weighingPage }];
  const [chosen] = await hid.requestDevice({ filters }).catch((error: unknown) => {
    throw choosingTrouble(error);
  });
  if (!chosen) throw new ScaleTrouble('not_chosen');
  if (!isScale(chosen)) throw new ScaleTrouble('not_a_scale');
  return chosen;
}

function isScale({ collections }: HidDevice): boolean {
  return collections.some(({ usagePage }) => usagePage === weighingPage);
}

/** Ids of the reports that carry a data weight; the usual ones where the device does not say. */
function dataReportIds({ collections }: HidDevice): readonly number[] {
  const nested = (list: HidDevice['collections']): HidDevice['collections'] =>
    list.flatMap((each) => [each, ...nested(each.children ?? [])]);
  const ids = nested(collections)
    .flatMap(({ inputReports }) => inputReports ?? [])
    .filter(({ items }) => items?.some(({ usages }) => usages?.includes(dataWeight)))
    .map(({ reportId }) => reportId ?? 0);
  return ids.length > 0 ? ids : usualReportIds;
}
