/** Use a month, drawn: what was used, what is expected, and its two ranges, told by hatching. */
import { useId } from 'react';
import type { ForecastMonthView, ForecastView } from '../../../shared/contract/purchasing.js';
import { decimal } from '../../../shared/decimal.js';
import { monthInWords } from '../pricing/days.js';
import { number } from '../shell/figures.js';
import { axisSteps, pathOf } from './chart-scale.js';
import { texts } from './texts.js';

const { forecast: words } = texts;
const [width, height] = [960, 320];
const edge = { left: 74, right: 14, top: 14, bottom: 34 };
const mostSteps = 5;

const figure = (text: string) => decimal(text).toNumber();

/** Where a month and an amount stand. */
interface Places {
  readonly x: (index: number) => number;
  readonly y: (amount: number) => number;
  readonly steps: readonly number[];
}

function placesOf({ history, months }: ForecastView): Places {
  const amounts = [
    ...history.map(({ quantity }) => figure(quantity)),
    ...months.map(({ high95 }) => figure(high95)),
  ];
  const steps = axisSteps(Math.max(...amounts, 0), mostSteps);
  const top = steps.at(-1) ?? 1;
  const across = (width - edge.left - edge.right) / Math.max(1, history.length + months.length - 1);
  return {
    x: (index) => edge.left + index * across,
    y: (amount) => edge.top + (1 - amount / top) * (height - edge.top - edge.bottom),
    steps,
  };
}

/** The drawing with its legend in words; the tables beside it have the same figures. */
export function UseChart({ forecast }: { forecast: ForecastView }) {
  const id = useId();
  const { history, months, name, unit } = forecast;
  const places = placesOf(forecast);
  const past = history.map(({ quantity }, index) => at(places, index, figure(quantity)));
  const ahead = months.map(({ mean }, index) => at(places, history.length + index, figure(mean)));
  const first = history[0]?.month ?? months[0]?.month ?? '';
  const last = months.at(-1)?.month ?? first;
  const bands = { first: history.length, months, places };
  return (
    <figure className="use-chart">
      <figcaption>{words.chart(name)}</figcaption>
      <svg viewBox={`0 0 ${width} ${height}`} role="img" aria-labelledby={`${id}-how`}>
        <title id={`${id}-how`}>{words.chartHow(monthInWords(first), monthInWords(last))}</title>
        <defs>
          <pattern
            id={`${id}-hatch`}
            width="5"
            height="5"
            patternUnits="userSpaceOnUse"
            patternTransform="rotate(45)"
          >
            <path className="hatch-line" d="M0 0V5" />
          </pattern>
        </defs>
        <Axes places={places} forecast={forecast} unit={unit} />
        <path className="wide-band" d={bandOf(bands, 'low95', 'high95')} />
        <path
          className="narrow-band"
          d={bandOf(bands, 'low80', 'high80')}
          fill={`url(#${id}-hatch)`}
        />
        <path className="past" d={pathOf(past)} />
        <path className="ahead" d={pathOf([...past.slice(-1), ...ahead])} />
        {ahead.map(([x, y]) => (
          <circle key={x} className="ahead-mark" cx={x} cy={y} r="4.5" />
        ))}
      </svg>
      <Legend hatch={`${id}-hatch`} />
    </figure>
  );
}

function at({ x, y }: Places, index: number, amount: number): readonly [number, number] {
  return [x(index), y(amount)];
}

type Limit = 'low80' | 'high80' | 'low95' | 'high95';

function bandOf(
  bands: { first: number; months: readonly ForecastMonthView[]; places: Places },
  low: Limit,
  high: Limit,
): string {
  const points = (limit: Limit) =>
    bands.months.map((month, index) => at(bands.places, bands.first + index, figure(month[limit])));
  return `${pathOf([...points(high), ...points(low).toReversed()])}Z`;
}

function Axes(props: { places: Places; forecast: ForecastView; unit: string }) {
  const { places, forecast } = props;
  const months = [...forecast.history, ...forecast.months].map(({ month }) => month);
  const [bottom = 0] = places.steps;
  return (
    <g className="axes">
      {places.steps.map((step) => (
        <g key={step}>
          <line x1={edge.left} x2={width - edge.right} y1={places.y(step)} y2={places.y(step)} />
          <text x={edge.left - 8} y={places.y(step) + 5} textAnchor="end">
            {number(`${step}`, 1)} {props.unit === 'piece' ? 'pcs' : props.unit}
          </text>
        </g>
      ))}
      {months.map((month, index) =>
        month.endsWith('-01') ? (
          <g key={month}>
            <line
              x1={places.x(index)}
              x2={places.x(index)}
              y1={places.y(bottom)}
              y2={places.y(bottom) + 8}
            />
            <text x={places.x(index)} y={height - 6} textAnchor="middle">
              {month.slice(0, 4)}
            </text>
          </g>
        ) : null,
      )}
    </g>
  );
}

function Legend({ hatch }: { hatch: string }) {
  const { legend } = words;
  const box = '0 0 34 18';
  return (
    <ul className="legend">
      <li>
        <svg viewBox={box} aria-hidden="true">
          <path className="past" d="M0 9H34" />
        </svg>
        {legend.used}
      </li>
      <li>
        <svg viewBox={box} aria-hidden="true">
          <path className="ahead" d="M0 9H34" />
          <circle className="ahead-mark" cx="17" cy="9" r="4.5" />
        </svg>
        {legend.expected}
      </li>
      <li>
        <svg viewBox={box} aria-hidden="true">
          <rect
            className="narrow-band"
            x="1"
            y="1"
            width="32"
            height="16"
            fill={`url(#${hatch})`}
          />
        </svg>
        {legend.four}
      </li>
      <li>
        <svg viewBox={box} aria-hidden="true">
          <rect className="wide-band" x="1" y="1" width="32" height="16" />
        </svg>
        {legend.nineteen}
      </li>
    </ul>
  );
}
