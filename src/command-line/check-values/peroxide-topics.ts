/** Published strengths of hydrogen peroxide, against shared/peroxide.ts and shared/strength.ts. */
import { decimal, round, zero, type Decimal } from '../../../shared/decimal.js';
import {
  molarMass_g,
  molarVolume_L,
  molesPerLitreOfPercent,
  molesPerLitreOfVolume,
  normalityOfVolume,
  percentByWeight,
  percentWeightPerVolume,
  stockForDilution,
  volumeOfMolesPerLitre,
} from '../../../shared/peroxide.js';
import {
  exceedsPeroxideLimit,
  peroxidePercentOfBowl,
  percentOfVolume,
  volumeOfPercent,
  type PeroxidePart,
} from '../../../shared/strength.js';
import { addition } from './alligation-topics.js';
import { asFigure, figure, needed, text } from './inputs.js';
import { Between, NotYetSupported, type Answer, type Topic } from './topic.js';
import type { ValueRow } from './value-row.js';

/** A convention that counts volumes in whole numbers, and moles from them. */
interface Convention {
  readonly molarVolume: Decimal;
  readonly wholeVolumes: boolean;
}

/** The convention that a row states, in figures or in words; the classical one if it does not. */
function conventionOf(row: ValueRow): Convention {
  const stated = figure(row.inputs, 'molar_volume_L', 'molar_volume');
  if (stated) return { molarVolume: stated, wholeVolumes: false };
  const words = [text(row.inputs, 'convention') ?? '', row.note ?? '', row.source].join(' ');
  const perMole = /([\d.]*\d) volumes per mol/.exec(words)?.[1];
  if (perMole !== undefined) {
    return { molarVolume: decimal(perMole).times(2), wholeVolumes: true };
  }
  if (/CLEAPSS|2[05] ?°? ?C|room temp/i.test(words)) {
    return { molarVolume: molarVolume_L.roomTemperature, wholeVolumes: true };
  }
  if (/1 bar|22\.7/.test(words)) {
    return { molarVolume: molarVolume_L.standardSince1982, wholeVolumes: false };
  }
  return { molarVolume: molarVolume_L.classical, wholeVolumes: false };
}

/** "12 % H2O2" and other ways to name the trade's per cent. */
function tradePercentOf(row: ValueRow): Decimal | undefined {
  const inWords = /([\d.]*\d)\s*%/.exec(text(row.inputs, 'regulatory', 'label') ?? '')?.[1];
  if (inWords !== undefined) return decimal(inWords);
  return figure(
    row.inputs,
    'pharmaceutical_percent',
    'trade_percent',
    'nominal_percent',
    'label_percent',
    'regulatory_percent',
    'percent',
  );
}

/** What follows from a number of volumes, or from moles, under a convention. */
function solution(row: ValueRow, molesPerLitre: Decimal, convention: Convention): Answer {
  const mass = figure(row.inputs, 'molar_mass') ?? molarMass_g;
  const percent = molesPerLitre.times(mass).dividedBy(10);
  const density = figure(row.inputs, 'density', 'density_g_cm3');
  const exactVolumes =
    figure(row.inputs, 'volumes', 'vol') ??
    volumeOfMolesPerLitre(molesPerLitre, convention.molarVolume);
  const volumes = convention.wholeVolumes ? round(exactVolumes, 0, 'half_up') : exactVolumes;
  const moles = convention.wholeVolumes
    ? molesPerLitreOfVolume(volumes, convention.molarVolume)
    : molesPerLitre;
  return {
    volumes,
    molarity: moles,
    mol_per_L: moles,
    normality: normalityOfVolume(volumes, convention.molarVolume),
    w_v_percent: percent,
    g_per_L: percent.times(10),
    ...(density ? { w_w_percent: percentByWeight(percent, density) } : {}),
    ...volumesByName(row, molesPerLitre),
  };
}

/** Fields such as "volumes_at_11.207": the volumes of 1 mol/L stand in the name. */
function volumesByName(row: ValueRow, molesPerLitre: Decimal): Answer {
  return Object.fromEntries(
    Object.keys(row.expected).flatMap((field) => {
      const perMole = asFigure(/^volumes_at_([\d.]+)$/.exec(field)?.[1]);
      if (!perMole) return [];
      return [[field, volumeOfMolesPerLitre(molesPerLitre, perMole.times(2))]];
    }),
  );
}

function peroxide(row: ValueRow): Answer {
  const trade = tradePercentOf(row);
  if (trade) return { volumes: volumeOfPercent(trade), percent: trade };
  const target = figure(row.inputs, 'target_M', 'target_mol_per_L');
  if (target) {
    const final = needed(row.inputs, 'final_mL', 'final_ml');
    const stock = needed(row.inputs, 'stock_mol_per_L', 'stock_M');
    return dilution(target, final, stock);
  }
  const diluted = figure(row.inputs, 'target_percent', 'target');
  if (diluted) return addition(row, diluted);
  const convention = conventionOf(row);
  const mass = figure(row.inputs, 'molar_mass') ?? molarMass_g;
  const volumes = figure(row.inputs, 'volumes', 'vol');
  if (volumes) {
    const moles = molesPerLitreOfVolume(volumes, convention.molarVolume);
    const trades = ['percent', 'nominal_percent', 'trade_percent', 'pharmaceutical_percent'];
    const asked = trades.filter((name) => name in row.expected);
    return {
      ...solution(row, moles, convention),
      ...Object.fromEntries(asked.map((name) => [name, percentOfVolume(volumes)])),
    };
  }
  const moles = figure(row.inputs, 'molarity', 'mol_per_L');
  if (moles) return solution(row, moles, convention);
  const percent = weightPerVolumeOf(row);
  return solution(row, molesPerLitreOfPercent(percent, mass), convention);
}

/** A stock's mol/L is printed rounded, the answer worked out from the unrounded figure. */
function dilution(target: Decimal, final: Decimal, stock: Decimal): Answer {
  const half = decimal('0.5').times(decimal('10').pow(-stock.decimalPlaces()));
  const least = stockForDilution(target, final, stock.plus(half));
  const most = stockForDilution(target, final, stock.minus(half));
  return {
    stock_mL: new Between(least, most),
    water_mL: new Between(final.minus(most), final.minus(least)),
  };
}

function weightPerVolumeOf(row: ValueRow): Decimal {
  const byWeight = figure(row.inputs, 'w_w_percent');
  if (byWeight) {
    return percentWeightPerVolume(byWeight, needed(row.inputs, 'density', 'density_g_cm3'));
  }
  const grams = figure(row.inputs, 'g_per_L');
  return grams ? grams.dividedBy(10) : needed(row.inputs, 'w_v_percent');
}

/** The most that Regulation (EC) 1223/2009, Annex III, entry 12, names for hair products. */
const hairLimitPercent = decimal('12');

/** Every "…_g" is a part of the bowl; its strength, if any, stands beside it. */
function peroxideLimit(row: ValueRow): Answer {
  const parts: PeroxidePart[] = Object.keys(row.inputs).flatMap((field) => {
    const name = /^(.+)_g$/.exec(field)?.[1];
    if (name === undefined) return [];
    return [{ grams: needed(row.inputs, field), percent: percentOfPart(row, name) }];
  });
  const mixed = figure(row.inputs, 'mix_percent', 'mix_w_w_percent');
  if (!mixed && parts.length === 0) throw new NotYetSupported('no grams of anything');
  const percent = mixed ?? peroxidePercentOfBowl(parts);
  const limit = figure(row.inputs, 'limit_percent', 'max_percent') ?? hairLimitPercent;
  const exceeds = exceedsPeroxideLimit(percent, limit);
  return {
    mix_w_w_percent_peroxide_only: percent,
    mix_w_w_percent: percent,
    mix_percent: percent,
    within_limit: !exceeds,
    exceeds_limit: exceeds,
  };
}

function percentOfPart(row: ValueRow, name: string): Decimal {
  const percent = figure(row.inputs, `${name}_w_w_percent`, `${name}_percent`);
  if (percent) return percent;
  const volumes = figure(row.inputs, `${name}_volumes`, `${name}_vol`);
  return volumes ? percentOfVolume(volumes) : zero;
}

/** Of the European rule only its sum is arithmetic; what it says in words is not run. */
function europeanRule(row: ValueRow): Answer {
  if (!figure(row.inputs, 'mix_percent', 'mix_w_w_percent')) {
    throw new NotYetSupported('no figures to run');
  }
  return peroxideLimit(row);
}

export const peroxideTopics: readonly Topic[] = [
  { name: 'peroxide', answer: peroxide },
  { name: 'peroxide-limit', answer: peroxideLimit },
  { name: 'eu-annex-iii', answer: europeanRule },
];
