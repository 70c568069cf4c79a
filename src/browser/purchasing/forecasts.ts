/** Forecasts as the pages ask for them. */
import { useQuery } from '@tanstack/react-query';
import type { ForecastsView, ForecastView } from '../../../shared/contract/purchasing.js';
import { send } from '../api/calls.js';
import { number } from '../shell/figures.js';

export type ForecastBy = 'product' | 'strength';

/** Months that are shown ahead, this one first. */
const horizon = 6;

/** Every product, or every strength of developer. */
export function useForecasts(by: ForecastBy) {
  return useQuery({
    queryKey: ['forecasts', by],
    staleTime: 300_000,
    queryFn: async () =>
      ((await send('GET', `/forecasts?horizon=${horizon}&by=${by}`)) as ForecastsView).items,
  });
}

/** What a forecast is called in an address: its product, or its strength. */
export function keyOf(forecast: ForecastView): string {
  return forecast.productId ?? `strength-${forecast.strength}`;
}

/** An amount of use: no place of it means anything. */
export function use(quantity: string, unit: string): string {
  return `${number(quantity)} ${unit === 'piece' ? 'pcs' : unit}`;
}
