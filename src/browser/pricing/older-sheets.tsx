/** Sheets that a newer one took the place of, each as it was. */
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { Button } from 'react-aria-components';
import type { PriceSheetView } from '../../../shared/contract/pricing.js';
import { send } from '../api/calls.js';
import { money } from './money.js';
import { instantInWords } from './days.js';
import { SheetBook } from './sheet-book.js';
import { texts } from './texts.js';

const { sheet: words } = texts;

/** Nothing where there is only one sheet; what doing it again cost stands here too. */
export function OlderSheets(props: { sheet: PriceSheetView; timeZone: string | undefined }) {
  const { sheet, timeZone } = props;
  const [opened, open] = useState<string>();
  const { data } = useQuery({
    queryKey: ['visits', sheet.visitId, 'price-sheets', sheet.id],
    queryFn: async () => {
      const path = `/visits/${sheet.visitId}/price-sheets`;
      return ((await send('GET', path)) as { rows: PriceSheetView[] }).rows;
    },
  });
  const older = (data ?? []).filter(({ id }) => id !== sheet.id);
  return (
    <>
      {sheet.redone && (
        <p>{words.redoneAfter(money(sheet.redone.contributionAfter, sheet.currency))}</p>
      )}
      {older.length > 0 && <h3>{words.older}</h3>}
      <ul className="plain">
        {older.map((each) => (
          <li key={each.id}>
            <Button
              className="line-key"
              aria-expanded={opened === each.id}
              onPress={() => open(opened === each.id ? undefined : (each.id ?? undefined))}
            >
              {words.olderLine(each.version ?? 1, instantInWords(each.madeAt ?? '', timeZone))}
              <span>{money(each.totals.gross, each.currency)}</span>
            </Button>
            {opened === each.id && <SheetBook sheet={each} />}
          </li>
        ))}
      </ul>
    </>
  );
}
