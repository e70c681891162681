import { STANDARD_PRESSURE } from "./atmosphere.ts";
import type { FuelGas } from "./composition.ts";
import { MOLAR_GAS_CONSTANT } from "./heat-capacity.ts";
import type { CombustionTemperature, VolumeTemperature } from "./molecule.ts";

/** The state that a volumetric property refers to. */
export interface ReferenceConditions {
  /** °C at which the heat of combustion counts. */
  readonly combustion: CombustionTemperature;
  /** °C at which the gas volume counts. */
  readonly volume: VolumeTemperature;
  /** Pa, 90 000 to 110 000; 101 325 where not given. */
  readonly pressure?: number;
}

/** The reference conditions of EN 437 and ISO 13443. */
export const METRIC_15_15: ReferenceConditions = { combustion: 15, volume: 15 };

/** Dry air in ISO 6976:2016, table A.1: molar mass, kg/kmol, and compression factor at 101.325 kPa. */
const AIR_MOLAR_MASS = 28.96546;
const AIR_COMPRESSION: Readonly<Record<VolumeTemperature, number>> = {
  0: 0.999419,
  15: 0.999595,
  15.55: 0.999601,
  20: 0.999645,
};

/** Volumetric properties of a fuel gas, as an ideal or as a real gas. */
export interface VolumeProperties {
  /** Gross (superior) and net (inferior) heating value, MJ/m3. */
  readonly gross: number;
  readonly net: number;
  /** kg/m3. */
  readonly density: number;
  /** Density over that of dry air, no unit. */
  readonly relativeDensity: number;
  /** Gross and net Wobbe index, MJ/m3: heating value over the root of the relative density. */
  readonly wobbeGross: number;
  readonly wobbeNet: number;
}

export interface GasProperties {
  /** Compression factor Z, no unit. */
  readonly compressionFactor: number;
  readonly ideal: VolumeProperties;
  readonly real: VolumeProperties;
}

/**
 * Compression factor of a gas by the summation factors of ISO 6976:2016, equation 1. For 90 to 110 kPa and Z above 0.9,
 * which all fuels here keep.
 */
export function compressionFactor(
  gas: FuelGas,
  volume: VolumeTemperature,
  pressure = STANDARD_PRESSURE,
): number {
  return 1 - (pressure / STANDARD_PRESSURE) * gas.summation[volume] ** 2;
}

/** Heating values, density and Wobbe index of a fuel gas by ISO 6976:2016; null at a pressure outside 90 to 110 kPa. */
export function gasProperties(gas: FuelGas, conditions: ReferenceConditions): GasProperties | null {
  const { combustion, volume, pressure = STANDARD_PRESSURE } = conditions;
  if (!(pressure >= 90_000 && pressure <= 110_000)) return null;
  const z = compressionFactor(gas, volume, pressure);
  const airZ = 1 - (pressure / STANDARD_PRESSURE) * (1 - AIR_COMPRESSION[volume]);
  /** With the compression factors of the gas and of air. */
  const properties = (gasZ: number, zOfAir: number): VolumeProperties => {
    const kmolPerCubicMetre = pressure / (1000 * MOLAR_GAS_CONSTANT * (volume + 273.15) * gasZ);
    const relativeDensity = ((gas.molarMass / AIR_MOLAR_MASS) * zOfAir) / gasZ;
    const gross = gas.gross[combustion] * kmolPerCubicMetre;
    const net = gas.net[combustion] * kmolPerCubicMetre;
    return {
      gross,
      net,
      density: gas.molarMass * kmolPerCubicMetre,
      relativeDensity,
      wobbeGross: gross / Math.sqrt(relativeDensity),
      wobbeNet: net / Math.sqrt(relativeDensity),
    };
  };
  return { compressionFactor: z, ideal: properties(1, 1), real: properties(z, airZ) };
}
