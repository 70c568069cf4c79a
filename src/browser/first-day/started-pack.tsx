/** A started pack on the scale: read from it, or typed as it shows; and its empty weight. */
import { Button } from 'react-aria-components';
import type { PackView } from '../../../shared/contract/catalogue.js';
import { canonical } from '../../../shared/decimal.js';
import { ScaleStrip } from '../scales/scale-strip.js';
import { useSourceStatus, useWeighing } from '../scales/weighing-state.js';
import { quantity } from '../shell/figures.js';
import type { ShelfEntry } from './shelf-entry.js';
import { TextLine } from './text-line.js';
import { words } from './texts.js';

const { shelf } = words;

/** The scale of the bench, and the field that takes what it shows. */
export function StartedPack(props: {
  entry: ShelfEntry;
  change: (part: Partial<ShelfEntry>) => void;
  pack: PackView;
}) {
  const { entry, change, pack } = props;
  const { source } = useSourceStatus();
  const still = useWeighing((state) =>
    state.plate === 'empty' || !state.still ? undefined : canonical(state.still.grams),
  );
  const isRead = source !== undefined && source.name !== 'keypad';
  return (
    <>
      <ScaleStrip />
      {isRead && (
        <Button
          className="key wide"
          isDisabled={still === undefined}
          onPress={() => change({ gross: still ?? '' })}
        >
          {still === undefined ? shelf.setDown : shelf.take(quantity(still, 'g'))}
        </Button>
      )}
      <div className="fields">
        <TextLine
          label={shelf.gross}
          value={entry.gross}
          onChange={(gross) => change({ gross })}
          inputMode="decimal"
        />
        <TextLine
          label={pack.emptyWeight ? shelf.emptyKnown(pack.emptyWeight.quantity) : shelf.empty}
          value={entry.empty}
          onChange={(empty) => change({ empty })}
          inputMode="decimal"
        />
      </div>
    </>
  );
}
