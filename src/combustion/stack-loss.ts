import type { FuelGas } from "./composition.ts";
import { enthalpyRise } from "./heat-capacity.ts";
import { WATER_LATENT } from "./molecule.ts";
import { saturationPressure } from "./saturation.ts";
import { AIR_OXYGEN, type Stoichiometry } from "./stoichiometry.ts";

/** Shares of the heating value, %. Casing losses, unburnt gas and moisture of the air are left out. */
export interface StackLoss {
  readonly lossDryPercent: number;
  readonly lossLatentPercent: number;
  readonly efficiencyNetPercent: number;
  readonly efficiencyGrossPercent: number;
}

/** The state of the flue gas at the measuring port: air ratio, temperatures in °C, pressure in Pa. */
export interface StackState {
  readonly lambda: number;
  readonly flueTemperature: number;
  readonly airTemperature: number;
  readonly pressure: number;
}

/**
 * Stack loss and combustion efficiency. Heating values are ISO 6976:2016 at 25 °C; sensible heat is counted from the
 * air temperature, as flue-loss practice does, with NASA-7 heat capacities; below the dew point the flue gas is saturated
 * at its own temperature and each mole of condensate gives back the enthalpy of vaporisation at 25 °C. Condensate is
 * counted as cooling like vapour; as water (75 J/(mol K)) it would take 0.12 points of efficiency more at most. The flue
 * temperature must lie at 0 to 600 °C.
 */
export function stackLoss(gas: FuelGas, burnt: Stoichiometry, state: StackState): StackLoss {
  const excessAir = (state.lambda - 1) * burnt.air;
  const rise = (species: Parameters<typeof enthalpyRise>[0]) =>
    enthalpyRise(species, state.airTemperature, state.flueTemperature);
  const sensible =
    burnt.co2 * rise("co2") +
    burnt.water * rise("h2o") +
    (burnt.nitrogen + excessAir * (1 - AIR_OXYGEN)) * rise("n2") +
    excessAir * AIR_OXYGEN * rise("o2");
  const latent = vapourLeft(burnt, burnt.dryFlue + excessAir, state) * WATER_LATENT[25];
  const gross = gas.gross[25];
  const useful = gross - sensible - latent;
  return {
    lossDryPercent: (100 * sensible) / gross,
    lossLatentPercent: (100 * latent) / gross,
    efficiencyNetPercent: (100 * useful) / gas.net[25],
    efficiencyGrossPercent: (100 * useful) / gross,
  };
}

/** Moles of water per mole of fuel that leave as vapour: all of it above the dew point. */
function vapourLeft(burnt: Stoichiometry, dryFlue: number, state: StackState): number {
  const saturated = saturationPressure(state.flueTemperature);
  if (saturated === null || saturated >= state.pressure) return burnt.water;
  return Math.min(burnt.water, (dryFlue * saturated) / (state.pressure - saturated));
}
