/** One product's or strength's use: what it was, what is expected, how sure; drawn, and a table. */
import type { ForecastView } from '../../../shared/contract/purchasing.js';
import { monthInWords } from '../pricing/days.js';
import { number } from '../shell/figures.js';
import { addressOf } from '../shell/place.js';
import { texts as shell } from '../shell/texts.js';
import { keyOf, use, useForecasts } from './forecasts.js';
import { OutOfStock } from './out-of-stock.js';
import { UseChart } from './use-chart.js';
import { texts } from './texts.js';

const { forecast: words } = texts;

/** The page of a product (its id) or of a strength ("strength-20"). */
export default function ForecastPage({ of }: { of: string }) {
  const by = of.startsWith('strength-') ? 'strength' : 'product';
  const { data, error, isPending } = useForecasts(by);
  const forecast = data?.find((each) => keyOf(each) === of);
  return (
    <section className="page" aria-labelledby="forecast-title">
      <h1 id="forecast-title">{forecast?.name ?? words.title}</h1>
      <div className="keys">
        <a className="key" href={addressOf('ordering', 'forecast')}>
          {words.back}
        </a>
      </div>
      {isPending && <p>{shell.loading}</p>}
      {error && <p role="alert">{error.message}</p>}
      {forecast && (
        <>
          <UseChart forecast={forecast} />
          <div className="ahead-and-behind">
            <Ahead forecast={forecast} />
            <Behind forecast={forecast} />
          </div>
          {forecast.productId && <OutOfStock productId={forecast.productId} />}
        </>
      )}
    </section>
  );
}

function Ahead({ forecast }: { forecast: ForecastView }) {
  const { unit } = forecast;
  return (
    <div>
      <h2>{words.aheadTitle}</h2>
      <table className="book small">
        <thead>
          <tr>
            <th scope="col">{words.month}</th>
            <th scope="col">{words.expected}</th>
            <th scope="col">{words.four}</th>
            <th scope="col">{words.nineteen}</th>
          </tr>
        </thead>
        <tbody>
          {forecast.months.map((month) => (
            <tr key={month.month}>
              <th scope="row">
                {monthInWords(month.month)} {month.running && <small>{words.running}</small>}
              </th>
              <td>{use(month.mean, unit)}</td>
              <td>{words.range(number(month.low80), use(month.high80, unit))}</td>
              <td>{words.range(number(month.low95), use(month.high95, unit))}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <h2>{words.how}</h2>
      <p>{forecast.sentence}</p>
    </div>
  );
}

/** The newest month first. */
function Behind({ forecast }: { forecast: ForecastView }) {
  return (
    <div>
      <h2>{words.historyTitle}</h2>
      <table className="book small">
        <thead>
          <tr>
            <th scope="col">{words.month}</th>
            <th scope="col">{words.used}</th>
          </tr>
        </thead>
        <tbody>
          {forecast.history.toReversed().map(({ month, quantity }) => (
            <tr key={month}>
              <th scope="row">{monthInWords(month)}</th>
              <td>{use(quantity, forecast.unit)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
