/** The order slip on paper: a ruled page, a line a product, large enough to read on the phone. */
import type PDFDocument from 'pdfkit';
import type { OrderView } from '../../../shared/contract/purchasing.js';
import { count, decimal, fixed } from '../../../shared/decimal.js';
import { minorDigits } from '../../../shared/currency.js';
import { slipLines } from './orders.views.js';

const margin = 50;
const width = 495;
const rowHeight = 24;
const bottom = 770;
const columns = [
  { title: 'tick', at: 0, width: 30 },
  { title: 'number', at: 34, width: 90 },
  { title: 'product and pack', at: 128, width: 217 },
  { title: 'packs', at: 349, width: 40, right: true },
  { title: 'price', at: 393, width: 102, right: true },
] as const;

/** Draws the slip on A4. @returns the PDF */
export async function orderSlip(order: OrderView, studio: string): Promise<Buffer> {
  // a quarter of what the service would read at its start, and seldom asked for
  const { default: Document } = await import('pdfkit');
  const page = new Document({
    size: 'A4',
    margin,
    info: { Title: `Order ${order.number}`, Author: studio },
  });
  const parts: Buffer[] = [];
  page.on('data', (part: Buffer) => parts.push(part));
  const done = new Promise<Buffer>((resolve, reject) => {
    page.on('end', () => resolve(Buffer.concat(parts)));
    page.on('error', reject);
  });
  head(page, order, studio);
  body(page, order);
  page.end();
  return done;
}

type Page = InstanceType<typeof PDFDocument>;

function head(page: Page, order: OrderView, studio: string): void {
  page.font('Helvetica-Bold').fontSize(18).text(`Order ${order.number}`);
  page.font('Helvetica').fontSize(12);
  page.text(`${studio}, ${order.orderedOn}`);
  page.text(`To: ${order.supplier ?? 'no supplier named'}`);
  if (order.state === 'cancelled') page.text('Cancelled.');
  if (order.note !== null) page.moveDown(0.5).text(order.note);
  page.moveDown(1);
}

function body(page: Page, order: OrderView): void {
  let y = page.y;
  row(
    page,
    y,
    columns.map(({ title }) => title),
    true,
  );
  for (const line of slipLines(order)) {
    y += rowHeight;
    if (y > bottom) {
      page.addPage();
      y = margin;
    }
    const cells = ['', line.orderCode ?? '', `${line.name}, ${line.packLabel}`];
    row(page, y, [...cells, `${line.packs}`, lineTotal(order, line.packs, line.packPrice)], false);
    page
      .rect(margin + 6, y + 3, 12, 12)
      .lineWidth(0.7)
      .stroke();
  }
  y += rowHeight;
  const total = order.goods === null ? 'Some prices are open.' : `Goods ${order.goods}`;
  const freight = `freight ${order.freight} ${order.currency}`;
  page.font('Helvetica-Bold').fontSize(12);
  page.text(`${total}, ${freight}`, margin, y + 8, { width, align: 'right' });
}

function lineTotal(order: OrderView, packs: number, price: string | null): string {
  if (price === null) return 'open';
  return fixed(decimal(price).times(count(packs)), minorDigits(order.currency));
}

function row(page: Page, y: number, cells: readonly string[], bold: boolean): void {
  page.font(bold ? 'Helvetica-Bold' : 'Helvetica').fontSize(bold ? 10 : 12);
  columns.forEach((column, index) => {
    page.text(cells[index] ?? '', margin + column.at, y + 4, {
      width: column.width,
      height: rowHeight - 6,
      ellipsis: true,
      align: 'right' in column ? 'right' : 'left',
      lineBreak: false,
    });
  });
  page.moveTo(margin, y + rowHeight - 2).lineTo(margin + width, y + rowHeight - 2);
  page.lineWidth(0.4).stroke();
}
