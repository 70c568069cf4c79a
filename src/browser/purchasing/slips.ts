/** A plan's lines as slips: one a supplier and order day, a line a product and pack. */
import type { OrderPlanView, PlanLineView } from '../../../shared/contract/purchasing.js';
import type { KeptPacks } from './order-plan.js';

export type ColumnName = 'bare' | 'comfortable';

/** A line of a slip, with what the other column would order of it. */
export interface SlipLine extends PlanLineView {
  readonly otherPacks: number;
}

export interface Slip {
  readonly supplierId: string | null;
  readonly supplier: string | null;
  readonly orderDay: string;
  /** True for the supplier's next order day; later ones only show what comes then. */
  readonly isFirst: boolean;
  readonly goods: string;
  readonly freight: string;
  readonly words: string;
  readonly other: ColumnName;
  readonly lines: readonly SlipLine[];
}

/** The slips of a column, the next order day first. */
export function slipsOf(plan: OrderPlanView, column: ColumnName): Slip[] {
  const other = column === 'bare' ? 'comfortable' : 'bare';
  return plan[column].orders.map((order): Slip => {
    const isOf = (line: PlanLineView) =>
      line.supplierId === order.supplierId && line.orderDay === order.orderDay;
    const days = plan[column].orders
      .filter(({ supplierId }) => supplierId === order.supplierId)
      .map(({ orderDay }) => orderDay);
    return {
      ...order,
      isFirst: days.every((day) => day >= order.orderDay),
      other,
      lines: plan[column].lines.filter(isOf).map((line) => ({
        ...line,
        otherPacks: packsIn(plan[other].lines, line),
      })),
    };
  });
}

function packsIn(lines: readonly PlanLineView[], like: PlanLineView): number {
  return (
    lines.find(
      ({ productId, packLabel, orderDay }) =>
        productId === like.productId && packLabel === like.packLabel && orderDay === like.orderDay,
    )?.packs ?? 0
  );
}

/** What a person has set of a product's pack; undefined where it is as worked out. */
export function keptOf(
  keep: readonly KeptPacks[],
  { productId, packLabel }: Pick<PlanLineView, 'productId' | 'packLabel'>,
): number | undefined {
  return keep.find((each) => each.productId === productId && each.packLabel === packLabel)?.packs;
}
