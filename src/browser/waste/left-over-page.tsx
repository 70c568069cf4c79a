/** Left over: what was mixed and what was left, and the size to mix next time; nobody's name. */
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { SizeView, WasteRowView, WasteView } from '../../../shared/contract/waste.js';
import { send } from '../api/calls.js';
import { dateInWords } from '../shell/clock.js';
import { Choice } from '../shell/choice.js';
import { share, weight } from '../shell/figures.js';
import { texts } from '../shell/texts.js';

const { waste: words } = texts;
const groups = ['purpose', 'service', 'product', 'month'] as const;
type Group = (typeof groups)[number];

/** The page; it opens on purposes, with the size that would have been enough. */
export default function LeftOverPage() {
  const [by, setBy] = useState<Group>('purpose');
  const { data, error, isPending } = useQuery({
    queryKey: ['waste', by],
    queryFn: async () => (await send('GET', `/waste?by=${by}`)) as WasteView,
  });
  return (
    <section className="page" aria-labelledby="waste-title">
      <h1 id="waste-title">
        {words.title} <small>{data && words.since(dateInWords(data.from))}</small>
      </h1>
      <Choice
        label={words.by}
        value={by}
        options={groups.map((value) => ({ value, text: words.groups[value] }))}
        onChoose={setBy}
      />
      {isPending && <p>{texts.loading}</p>}
      {error && <p role="alert">{error.message}</p>}
      {data?.rows.length === 0 && <p className="quiet">{words.none}</p>}
      {data && data.rows.length > 0 && <Rows rows={data.rows} by={by} />}
      {by === 'purpose' && <p className="quiet">{words.sizeHow}</p>}
    </section>
  );
}

function Rows({ rows, by }: { rows: readonly WasteRowView[]; by: Group }) {
  return (
    <table className="book">
      <thead>
        <tr>
          <th scope="col">{words.groups[by]}</th>
          {by === 'purpose' && <th scope="col">{words.size}</th>}
          <th scope="col">{words.bowls}</th>
          <th scope="col">{words.mixed}</th>
          <th scope="col">{words.left}</th>
          <th scope="col">{words.part}</th>
          <th scope="col">{words.ranOut}</th>
        </tr>
      </thead>
      <tbody>
        {rows.map((row) => (
          <tr key={row.key}>
            <th scope="row">{row.label}</th>
            {by === 'purpose' && <NextTime purpose={row.label} />}
            <td>
              {row.bowls}
              {row.estimatedBowls > 0 && `, ${words.notWeighed(row.estimatedBowls)}`}
            </td>
            <td>{weight(row.mixed.quantity, 0)}</td>
            <td>{weight(row.wasted.quantity, 0)}</td>
            <td>{shareInWords(row)}</td>
            <td>{row.ranOut === 0 ? '' : row.ranOut}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function NextTime({ purpose }: { purpose: string }) {
  const { data } = useQuery({
    queryKey: ['sizes', purpose],
    queryFn: async () =>
      (await send('GET', `/sizes?purpose=${encodeURIComponent(purpose)}`)) as SizeView,
  });
  if (!data) return <td />;
  return <td>{data.size ? <strong>{weight(data.size.quantity, 0)}</strong> : words.sizeNone}</td>;
}

/** "9 % (6 to 12 %)"; the interval only where there are bowls enough for one. */
function shareInWords({ share: part, shareLow, shareHigh }: WasteRowView): string {
  if (part === null) return '';
  if (shareLow === null || shareHigh === null) return share(part);
  return words.range(share(part), share(shareLow), share(shareHigh));
}
