/** Hydrogen peroxide by its chemistry: oxygen set free, moles, per cent; not the trade's 0.3. */
import { decimal, type Decimal } from './decimal.js';

/**
 * Litres of oxygen that one mole takes up, by convention. The classical one stands behind
 * "3 % is 10 volumes"; school tables reckon at room temperature.
 */
export const molarVolume_L = {
  /** 0 degrees Celsius, 1 atm: 11.207 volumes for 1 mol/L. */
  classical: decimal('22.414'),
  /** The same as textbooks round it: 11.2 volumes for 1 mol/L, normality = volumes / 5.6. */
  textbook: decimal('22.4'),
  /** 0 degrees Celsius, 1 bar: standard conditions since 1982. Value: memory. */
  standardSince1982: decimal('22.711'),
  /** About 20 degrees Celsius, 1 atm: 12.0 volumes for 1 mol/L. */
  roomTemperature: decimal('24'),
} as const;

/** g/mol of H2O2, as in published physical data. */
export const molarMass_g = decimal('34.0147');

/**
 * mol/L of a solution of `volumes` litres of oxygen a litre, unrounded: 2 H2O2 -> 2 H2O + O2, so
 * mol/L = 2 x volumes / molar volume. 10 volumes -> 0.8923 mol/L.
 */
export function molesPerLitreOfVolume(
  volumes: Decimal,
  molarVolume: Decimal = molarVolume_L.classical,
): Decimal {
  return volumes.times(2).dividedBy(molarVolume);
}

/** Volumes of a solution of `molesPerLitre`, unrounded: volumes = mol/L x molar volume / 2. */
export function volumeOfMolesPerLitre(
  molesPerLitre: Decimal,
  molarVolume: Decimal = molarVolume_L.classical,
): Decimal {
  return molesPerLitre.times(molarVolume).dividedBy(2);
}

/**
 * Normality (equivalents a litre) of a solution, unrounded: two electrons a molecule, so
 * 2 x mol/L; textbooks print volumes / 5.6, hence the default. 10 volumes -> 1.79.
 */
export function normalityOfVolume(
  volumes: Decimal,
  molarVolume: Decimal = molarVolume_L.textbook,
): Decimal {
  return molesPerLitreOfVolume(volumes, molarVolume).times(2);
}

/**
 * Per cent w/v (g in 100 ml) of a solution of `volumes`, unrounded: mol/L x g/mol / 10.
 * 10 volumes -> 3.035 %, where the trade says 3 %.
 */
export function stoichiometricPercentOfVolume(
  volumes: Decimal,
  molarVolume: Decimal = molarVolume_L.classical,
  molarMass: Decimal = molarMass_g,
): Decimal {
  return molesPerLitreOfVolume(volumes, molarVolume).times(molarMass).dividedBy(10);
}

/** Volumes of a solution of per cent w/v, unrounded: the reverse of the above. */
export function stoichiometricVolumeOfPercent(
  percentWeightPerVolume: Decimal,
  molarVolume: Decimal = molarVolume_L.classical,
  molarMass: Decimal = molarMass_g,
): Decimal {
  return volumeOfMolesPerLitre(
    molesPerLitreOfPercent(percentWeightPerVolume, molarMass),
    molarVolume,
  );
}

/** mol/L of a solution of per cent w/v, unrounded: % x 10 / (g/mol). */
export function molesPerLitreOfPercent(
  percentWeightPerVolume: Decimal,
  molarMass: Decimal = molarMass_g,
): Decimal {
  return percentWeightPerVolume.times(10).dividedBy(molarMass);
}

/** Per cent w/v from per cent w/w and density in g/ml: their product. 6 % at 1.0204 -> 6.122 %. */
export function percentWeightPerVolume(percentByWeight: Decimal, density: Decimal): Decimal {
  return percentByWeight.times(density);
}

/** Per cent w/w from per cent w/v and density in g/ml: their quotient, unrounded. */
export function percentByWeight(percentWeightPerVolume: Decimal, density: Decimal): Decimal {
  return percentWeightPerVolume.dividedBy(density);
}

/**
 * Millilitres of a stock solution that give `final_ml` at `target` mol/L, unrounded:
 * target x final / stock. 100 ml of 1 mol/L from 17.5897 mol/L take 5.68513 ml.
 */
export function stockForDilution(target: Decimal, final_ml: Decimal, stock: Decimal): Decimal {
  return target.times(final_ml).dividedBy(stock);
}

/**
 * How far the trade's per cent (0.3 x volumes) lies from the stoichiometric w/v per cent, as a
 * share of the latter: 20 vol is 6 % in the trade and 6.070 % by chemistry, -0.0116.
 */
export function tradeDifference(volumes: Decimal): Decimal {
  const exact = stoichiometricPercentOfVolume(volumes);
  return volumes.times('0.3').minus(exact).dividedBy(exact);
}
